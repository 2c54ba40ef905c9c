package page

import "strings"

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
	Points []int64 // in cents, a ring each
	Own    Point   // solid; it is not in Points
	Median Point   // a stroke
	Target Point   // a dashed stroke; left out without a label
}

// Point is an amount in cents with its words.
type Point struct {
	At    int64
	Label string
}

// Fallback is nothing.
func (Strip) Fallback() []Block { return nil }
