package statistics

import (
	"cmp"
	"slices"
)

// Wait is how long something was watched, in days, and whether what was
// waited for came at the end of it.
type Wait struct {
	Days int
	Came bool
}

// Survivors is the share still waiting just after so many days, of which
// there is a step at every day on which something came.
type Survivors struct {
	Days    int
	AtRisk  int // watched up to this day
	Came    int // on this day
	Waiting float64
}

// StillWaiting is the estimate of Kaplan and Meier (Journal of the American
// Statistical Association 53, 1958): what is watched no longer counts as
// waiting up to its last day and for nothing after it. What ends on a day on
// which another came was still there when that came.
func StillWaiting(waits []Wait) []Survivors {
	w := slices.Clone(waits)
	slices.SortFunc(w, func(a, b Wait) int { return cmp.Compare(a.Days, b.Days) })
	var out []Survivors
	waiting := 1.0
	for i := 0; i < len(w); {
		day, came, end := w[i].Days, 0, i
		for ; end < len(w) && w[end].Days == day; end++ {
			if w[end].Came {
				came++
			}
		}
		if came > 0 {
			waiting *= 1 - float64(came)/float64(len(w)-i)
			out = append(out, Survivors{day, len(w) - i, came, waiting})
		}
		i = end
	}
	return out
}

// CameWithin is the share that has come by the end of so many days. It is not
// known, and false, where nothing was watched that long while something was
// still waiting.
func CameWithin(waits []Wait, days int) (float64, bool) {
	if len(waits) == 0 {
		return 0, false
	}
	waiting, longest := 1.0, 0
	for _, w := range waits {
		longest = max(longest, w.Days)
	}
	for _, s := range StillWaiting(waits) {
		if s.Days <= days {
			waiting = s.Waiting
		}
	}
	return 1 - waiting, longest >= days || waiting == 0
}
