package costing_test

import (
	"encoding/json"
	"fmt"
	"maps"
	"runtime"
	"testing"

	"github.com/stretchr/testify/require"

	"piecebook/ledger/calendar"
	"piecebook/ledger/costing"
	"piecebook/ledger/testkit"
	"piecebook/ledger/testkit/bigbooks"
)

// Goal: a month costs what its own records ask for, however many years lie
// behind it. Method: of ten years with as much work in each, the bytes that the
// fold asks for in all, whether it keeps them or not, in the third year and in
// the tenth.
func TestMonthsCostTheirOwnRecords(t *testing.T) {
	made := bigbooks.Make(1, bigbooks.Size{Pieces: 40, Years: 10})
	l := costing.Run(testkit.Read(t, made.Folder()), bigbooks.LastMonth)
	asked := func(after, through calendar.Month) uint64 {
		var before, now runtime.MemStats
		again, closing := &costing.Ledger{Books: l.Books}, l.At(after)
		runtime.ReadMemStats(&before)
		again.Resume(closing, through)
		runtime.ReadMemStats(&now)
		return now.TotalAlloc - before.TotalAlloc
	}
	ofYear := func(end calendar.Month) uint64 { return asked(end-12, end) - asked(end, end) } // less the index
	third, tenth := ofYear(bigbooks.LastMonth-7*12), ofYear(bigbooks.LastMonth)
	t.Logf("third year %d KB, tenth year %d KB", third>>10, tenth>>10)
	require.Less(t, tenth, third*5/4)
}

// Goal: an overlay is the map that it stands for, at any depth, and what lies
// under one is never changed.
func TestOverlayIsItsMap(t *testing.T) {
	var at costing.Overlay[int]
	want := map[string]int{}
	for i := range 40 {
		was, before := at, maps.Clone(want)
		set := map[string]int{fmt.Sprint(i % 7): i, "last": i}
		maps.Copy(want, set)
		at = at.With(set)
		require.Equal(t, want, at.All())
		require.Equal(t, before, was.All())
		require.Equal(t, i, at.Of("last"))
		require.Equal(t, want[fmt.Sprint(i%5)], at.Of(fmt.Sprint(i%5)))
		require.Zero(t, at.Of("nobody"))
	}
	text, err := json.Marshal(at)
	require.NoError(t, err)
	var again costing.Overlay[int]
	require.NoError(t, json.Unmarshal(text, &again))
	require.Equal(t, want, again.All())
	text, err = json.Marshal(costing.Overlay[int]{})
	require.NoError(t, err)
	require.Equal(t, "{}", string(text))
}
