package atonce

import (
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/require"
)

// Goal: each piece of work is done once, and a panic in one is the caller's
// after all have ended.
func TestEach(t *testing.T) {
	for _, n := range []int{0, 1, 7, 1_000} {
		done := make([]int, n)
		Each(n, func(i int) { done[i]++ })
		for i := range done {
			require.Equal(t, 1, done[i])
		}
	}
	var done atomic.Int32
	count := func() { done.Add(1) }
	require.Panics(t, func() { Do(count, func() { panic("one fails") }, count, count) })
	require.Equal(t, int32(3), done.Load())
}
