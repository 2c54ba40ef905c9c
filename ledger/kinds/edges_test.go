package kinds_test

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"piecebook/ledger/testkit"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"piecebook/ledger/calendar"
	"piecebook/ledger/kinds"
	"piecebook/ledger/money"
)

// shop makes books of pieces sold: each a kind, what it cost, what it brought
// and its hours; a price of 0 is not sold.
func shop(pieces ...[4]any) string {
	rows, hours, sales := "", "", ""
	for i, p := range pieces {
		id := fmt.Sprintf("P%02d", i)
		rows += fmt.Sprintf("%s,%v,2026-01-01,%v\n", id, p[0], p[1])
		if p[2] != 0 {
			sales += fmt.Sprintf("2026-01-20,%s,fair,%v\n", id, p[2])
		}
		if p[3] != 0 {
			hours += fmt.Sprintf("2026-01-10,%s,%v\n", id, p[3])
		}
	}
	words := "pieces\npiece,kind,got_on,price\n" + rows
	if hours != "" {
		words += "\nhours\nworked_on,pieces,hours\n" + hours
	}
	if sales != "" {
		words += "\nsales\nsold_on,pieces,channel,price\n" + sales
	}
	return strings.TrimSpace(words)
}

func TestEdges(t *testing.T) {
	report := func(t *testing.T, pieces ...[4]any) kinds.Report {
		return kinds.Of(testkit.Costed(t, shop(pieces...), "2026-01"), kinds.Scope{})
	}

	t.Run("one sale", func(t *testing.T) {
		k := of(t, report(t, [4]any{"chair", 10, 50, 4}), "chair")
		assert.False(t, k.Estimate.Ranked)
		assert.False(t, k.Estimate.Known)
		assert.Equal(t, "10.00", text(k.PerHour))
		assert.True(t, math.IsNaN(k.Estimate.Error))
	})
	t.Run("one kind is nobody's neighbour", func(t *testing.T) {
		k := of(t, report(t, [4]any{"chair", 10, 50, 4}, [4]any{"chair", 10, 60, 4}, [4]any{"chair", 10, 30, 4}), "chair")
		assert.True(t, k.Estimate.Ranked && k.Estimate.Known)
		assert.InDelta(t, float64(*k.PerHour), k.Estimate.Expected, 0.5, "there is nothing to draw it toward")
		assert.Less(t, k.Estimate.Low, k.Estimate.Expected)
	})
	t.Run("all losses", func(t *testing.T) {
		r := report(t, [4]any{"chair", 60, 50, 4}, [4]any{"chair", 90, 60, 4}, [4]any{"chair", 70, 30, 4}, [4]any{"desk",
			90, 30, 2}, [4]any{"desk", 90, 35, 2}, [4]any{"desk", 90, 10, 2})
		k := of(t, r, "chair")
		assert.Equal(t, 3, k.AtALoss)
		assert.Negative(t, k.Estimate.Expected)
		assert.Less(t, k.Estimate.Beats, 0.01)
		assert.Equal(t, 1, k.Estimate.Place)
	})
	t.Run("zero hours", func(t *testing.T) {
		r := report(t, [4]any{"chair", 10, 50, 0}, [4]any{"chair", 10, 60, 0}, [4]any{"chair", 10, 30, 0})
		k := of(t, r, "chair")
		assert.Nil(t, k.PerHour)
		assert.False(t, k.Estimate.Ranked)
		assert.True(t, math.IsNaN(k.Estimate.Expected))
		assert.Equal(t, "110.00", k.Result.String())
	})
	t.Run("all unsold", func(t *testing.T) {
		k := of(t, report(t, [4]any{"chair", 10, 0, 4}, [4]any{"chair", 10, 0, 4}), "chair")
		assert.Empty(t, k.Judged)
		assert.Nil(t, k.Median)
		assert.Nil(t, k.Margin)
		assert.Equal(t, "20.00", k.TiedUp.String())
	})
	t.Run("identical profits", func(t *testing.T) {
		same := [4]any{"chair", 10, 50, 4}
		k := of(t, report(t, same, same, same), "chair")
		assert.True(t, k.Estimate.Ranked)
		assert.False(t, k.Estimate.Known, "no scatter says nothing of the next one")
		assert.InDelta(t, 1000, k.Estimate.Expected, 1e-9)
	})
	t.Run("no books", func(t *testing.T) {
		r := kinds.Of(testkit.Costed(t, "pieces\npiece,kind,got_on,price\nA,chair,2026-01-01,5", "2026-01"),
			kinds.Scope{Year: 1999})
		assert.Zero(t, r.Shop.Got)
		assert.Empty(t, r.Channels)
	})
}

// Four chairs sold as one set are one reading: drawn in as one sale is, and
// how far they scatter is not known.
func TestSoldTogether(t *testing.T) {
	books := func(set bool) string {
		words := shop([4]any{"desk", 40, 90, 2}, [4]any{"desk", 40, 95, 2}, [4]any{"desk", 40, 120, 3}, [4]any{"chair", 5,
			25, 2}, [4]any{"chair", 5, 25, 2}, [4]any{"chair", 5, 25, 2}, [4]any{"chair", 5, 25, 2})
		if set {
			before, _, _ := strings.Cut(words, "2026-01-20,P03")
			words = before + "2026-01-20,P03; P04; P05; P06,fair,100\n"
		}
		return words
	}
	one, four := kinds.Of(testkit.Costed(t, books(true), "2026-01"), kinds.Scope{}),
		kinds.Of(testkit.Costed(t, books(false), "2026-01"),
			kinds.Scope{})
	set, apart := of(t, one, "chair"), of(t, four, "chair")
	assert.Equal(t, apart.PerHour, set.PerHour)
	assert.False(t, set.Estimate.Ranked, "four sold as one are one sale")
	assert.Equal(t, 1, set.Estimate.Sales)
	assert.True(t, math.IsNaN(set.Estimate.Error))
	assert.Zero(t, apart.Estimate.Error)
	assert.Less(t, set.Estimate.Kept, apart.Estimate.Kept)
	assert.Greater(t, set.Estimate.High-set.Estimate.Low, apart.Estimate.High-apart.Estimate.Low)
}

// Two kinds alike but for their spelling are one, by the commoner spelling.
func TestSpelling(t *testing.T) {
	r := kinds.Of(testkit.Costed(t, shop([4]any{"Side Chair", 1, 0, 0}, [4]any{"side-chair", 1, 0, 0},
		[4]any{"side chair", 1, 0, 0}, [4]any{"sidechair", 1, 0, 0}, [4]any{"side chair", 1, 0, 0}), "2026-01"),
		kinds.Scope{})
	require.Len(t, r.Kinds, 1)
	assert.Equal(t, "side chair", r.Kinds[0].Name)
}

func TestParseSeason(t *testing.T) {
	day := func(text string) calendar.Date {
		d, err := calendar.Parse(text)
		require.NoError(t, err)
		return d
	}
	for _, c := range []struct {
		text    string
		year    int
		words   string
		in, out string
	}{
		{"spring", 0, "spring (March to May) of every year", "2025-05-31", "2025-06-01"},
		{" Fall", 2026, "fall (September to November 2026)", "2026-09-01", "2025-09-01"},
		{"winter", 2026, "winter (December 2025 to February 2026)", "2025-12-01", "2026-12-01"},
		{"3-5", 0, "March to May of every year", "2024-03-01", "2024-02-29"},
		{"nov-jan", 2026, "November 2025 to January 2026", "2026-01-31", "2026-02-01"},
		{"11", 0, "November of every year", "2026-11-30", "2026-10-30"},
	} {
		s, ok := kinds.ParseSeason(c.text)
		require.True(t, ok, c.text)
		s.Year = c.year
		assert.Equal(t, c.words, s.String())
		assert.True(t, s.Has(day(c.in)), c.in)
		assert.False(t, s.Has(day(c.out)), c.out)
	}
	for _, bad := range []string{"", "easter", "13", "0-3", "3-", "3-5-7", "ma"} {
		_, ok := kinds.ParseSeason(bad)
		assert.False(t, ok, bad)
	}
	winter, _ := kinds.ParseSeason("winter")
	winter.Year = 2026
	assert.Equal(t, "2026-02", winter.End(calendar.MonthOf(2026, 8)).String())
	assert.Equal(t, "2025-11", kinds.Scope{Year: 2026}.End(calendar.MonthOf(2025, 11)).String())
	assert.False(t, winter.Has(calendar.Date{}))
}

// The contract's worked example: a can that did 111.50 sq ft over March and
// April, against 100 stated; a second supply counted with nothing to share by
// has no coverage.
func TestOwnCoverage(t *testing.T) {
	l := testkit.Costed(t, `
pieces
piece,kind,got_on,price,area
A,chair,2026-03-01,1,31.5
B,chair,2026-03-01,1,20
C,chair,2026-03-01,1,40

supplies
supply,group,container,coverage
Primer,primer,1 qt,100
Oil,other,1 qt,

purchases
bought_on,supply,containers,cost,tax_paid
2026-03-02,Primer,1,18.99,1.20
2026-05-02,Primer,2,40,2
2026-03-02,Oil,1,9,

uses
used_on,pieces,supply,coats
2026-03-03,A,Primer,1
2026-03-04,B,Primer,2
2026-04-05,C,Primer,1
2026-05-06,C,Primer,2

counts
counted_on,supply,left
2026-04-30,Primer,0
2026-04-30,Oil,0.5
2026-05-31,Primer,1
`, "2026-05")
	got := kinds.CoverageOf(l)
	require.Len(t, got, 1)
	c := got[0]
	assert.Equal(t, "Primer", c.Supply.Name)
	assert.Equal(t, 2, c.Spans)
	assert.Equal(t, [2]string{"2026-03", "2026-05"}, [2]string{c.From.String(), c.To.String()})
	assert.Equal(t, "95.75", money.Fixed(c.Own, 2), "(111.50 + 80) ÷ 2 containers")
	assert.Equal(t, "21.00", text(c.Newest))
	stated, usual := c.Stated()
	assert.Equal(t, "100", money.AtMost(stated, 2))
	assert.False(t, usual)
	before := kinds.CoverageOf(testkit.Costed(t, twoKinds, "2026-02"))
	assert.Empty(t, before)
}

func TestRounded(t *testing.T) {
	for _, c := range []struct {
		x    float64
		unit int64
		want money.Cents
		ok   bool
	}{{1938.4, 10, 1940, true}, {1945, 10, 1940, true}, {-151, 100, -200, true}, {math.NaN(), 10, 0,
		false}, {math.Inf(1), 10, 0, false}} {
		got, ok := kinds.Rounded(c.x, c.unit)
		assert.Equal(t, c.ok, ok)
		assert.Equal(t, c.want, got, c.x)
	}
}

// Goal: a season is not taken for a trend, and the average is a whole year's.
// Method: a chair a month for sixteen months at 2 hours, for 140 and up to 60
// more or less by a wave over the year: (140 - 20) ÷ 2 = 60.00 an hour. The four
// months that are there twice are the dear ones.
func TestASeasonIsNoTrend(t *testing.T) {
	rows, hours, sales := "", "", ""
	for m := range 16 {
		month := calendar.MonthOf(2025, time.January) + calendar.Month(m)
		price := 140 + 60*math.Sin(2*math.Pi*float64(m)/12) + 4*float64(m%3-1)
		rows += fmt.Sprintf("P%02d,chair,%s-01,20\n", m, month)
		hours += fmt.Sprintf("%s-02,P%02d,2\n", month, m)
		sales += fmt.Sprintf("%s-15,P%02d,fair,%.2f\n", month, m, price)
	}
	r := kinds.Of(testkit.Costed(t, "pieces\npiece,kind,got_on,price\n"+rows+"\nhours\nworked_on,pieces,hours\n"+hours+
		"\nsales\nsold_on,pieces,channel,price\n"+sales, "2026-04"), kinds.Scope{})
	k := of(t, r, "chair")
	assert.False(t, r.Trend.Matters())
	assert.InDelta(t, 6000, k.Estimate.Expected, 300)
	assert.Greater(t, float64(*k.PerHour), 6400.0)
}
