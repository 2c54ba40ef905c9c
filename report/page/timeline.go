package page

import (
	"math"
	"slices"
	"strings"
)

// Stretch is a part of a Timeline between two of its days.
type Stretch struct {
	Label    string
	From, To float64 // days from any day
	Strong   bool    // solid, where others are pale
}

// Moment is a day of a Timeline.
type Moment struct {
	Label string
	At    float64 // as of a Stretch
}

// Timeline is a band of stretches to scale, each named, with the days between
// them.
type Timeline struct {
	Stretches []Stretch
	Days      []Moment
}

// Fallback is the stretches and the days in a sentence; nothing without days.
func (t Timeline) Fallback() []Block {
	var stretches, days []string
	for _, x := range t.Stretches {
		stretches = append(stretches, x.Label)
	}
	for _, x := range t.Days {
		days = append(days, x.Label)
	}
	text := strings.Join(stretches, ", ")
	if text != "" {
		text += ": "
	}
	if len(days) == 0 {
		return nil
	}
	return []Block{Paragraph{Text: text + strings.Join(days, "; ") + "."}}
}

// Strip is amounts as points on one scale that is shown under it. It has no
// words of its own: a sentence beside it prints the lowest, the median, the
// highest and the one the page is about, so its Fallback is empty.
type Strip struct {
	Points []int64 // in cents, rings
	Own    Point   // solid; it is not in Points
	Median Point   // a stroke
	Target Point   // a dashed stroke; left out without a label
}

// Ring is where points of a strip are drawn: at X, on this level from the scale up.
type Ring struct {
	X     float64
	Level int
}

// highestStack is how many rings stand on one another at most.
const highestStack = 4

// Rings places the strip's points, given where an amount stands, so that none
// covers another: those less than a diameter apart stand on one another at the
// place of the lowest of them, and on Own where that is as near. Each ring is up to so
// many points; more than one only where the rings would stand too high.
func (s Strip) Rings(at func(float64) float64, diameter float64) (rings []Ring, each int) {
	type stack struct {
		x      float64
		points int
	}
	var stacks []stack
	highest := 0
	for _, v := range slices.Sorted(slices.Values(s.Points)) {
		x, last := at(float64(v)), len(stacks)-1
		if last < 0 || x-stacks[last].x >= diameter {
			stacks = append(stacks, stack{x: x})
			last++
		}
		stacks[last].points++
		highest = max(highest, stacks[last].points)
	}
	each = max(1, (highest+highestStack-1)/highestStack)
	own := at(float64(s.Own.At))
	for _, k := range stacks {
		level := 0
		if s.Own.Label != "" && math.Abs(k.x-own) < diameter {
			level = 1
		}
		for range (k.points + each - 1) / each {
			rings = append(rings, Ring{X: k.x, Level: level})
			level++
		}
	}
	return rings, each
}

// Point is an amount in cents with its words.
type Point struct {
	At    int64
	Label string
}

// Fallback is nothing.
func (Strip) Fallback() []Block { return nil }
