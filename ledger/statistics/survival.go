package statistics

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"
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
	// Unsure is Greenwood's sum up to here, Σ came ÷ (at risk × (at risk - came)):
	// the variance of the share ÷ its square. Infinite where none waits on.
	Unsure float64
}

// StillWaiting is the estimate of Kaplan and Meier (Journal of the American
// Statistical Association 53, 1958): what is watched no longer counts as
// waiting up to its last day and for nothing after it. What ends on a day on
// which another came was still there when that came.
func StillWaiting(waits []Wait) []Survivors {
	w := slices.Clone(waits)
	slices.SortFunc(w, func(a, b Wait) int { return cmp.Compare(a.Days, b.Days) })
	var out []Survivors
	waiting, unsure := 1.0, 0.0
	for i := 0; i < len(w); {
		day, came, end := w[i].Days, 0, i
		for ; end < len(w) && w[end].Days == day; end++ {
			if w[end].Came {
				came++
			}
		}
		if came > 0 {
			there := float64(len(w) - i)
			waiting *= 1 - float64(came)/there
			unsure += float64(came) / (there * (there - float64(came)))
			out = append(out, Survivors{day, len(w) - i, came, waiting, unsure})
		}
		i = end
	}
	return out
}

// Arrived is the share that has come by the end of so many days, and where it
// lies with the chance of level.
type Arrived struct {
	Share float64
	Interval
	// Known is false where nothing was watched that long while something was
	// still waiting.
	Known bool
}

// CameWithin is the share that has come by the end of so many days. Its
// interval is Greenwood's variance on the scale of log(-log(share waiting))
// (Kalbfleisch and Prentice, The Statistical Analysis of Failure Time Data
// (1980); from memory); where none has come, or all, it is Wilson's.
func CameWithin(waits []Wait, days int, level float64) Arrived {
	if len(waits) == 0 {
		return Arrived{}
	}
	at, longest, came, watched := Survivors{Waiting: 1}, 0, 0, 0
	for _, w := range waits {
		longest = max(longest, w.Days)
		if w.Came && w.Days <= days {
			came++
		}
		if w.Came || w.Days >= days {
			watched++
		}
	}
	for _, s := range StillWaiting(waits) {
		if s.Days <= days {
			at = s
		}
	}
	out := Arrived{Share: 1 - at.Waiting, Known: longest >= days || at.Waiting == 0}
	if at.Waiting == 0 || at.Waiting == 1 {
		out.Interval = Wilson(came, watched, level)
		return out
	}
	z := distuv.UnitNormal.Quantile((1 + level) / 2)
	width := math.Exp(z * math.Sqrt(at.Unsure) / math.Abs(math.Log(at.Waiting)))
	out.Interval = Interval{1 - math.Pow(at.Waiting, 1/width), 1 - math.Pow(at.Waiting, width)}
	return out
}
