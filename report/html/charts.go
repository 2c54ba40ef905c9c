package html

import (
	"cmp"
	"fmt"
	"math"
	"strconv"
	"strings"

	"piecebook/report/page"
)

// drawing is an inline vector drawing.
type drawing struct {
	ID, Title, Desc string
	Class           string // beside that of charts
	Width, Height   string
	Marks           []mark
}

// mark is one shape or word of a drawing; numbers are as SVG has them.
type mark struct {
	Shape, Class string // line, circle, path or text
	X, Y, X2, Y2 string // of a circle its radius
	D            string // of a path
	Text, Anchor string
	Under        string // a second line of Text
}

// at is a length as SVG has it, to the tenth of a unit.
func at(v float64) string { return strconv.FormatFloat(math.Round(v*10)/10, 'f', -1, 64) }

func rect(class string, x, y, x2, y2 float64) mark {
	return mark{Shape: "path", Class: class, D: "M" + at(x) + " " + at(y) + "H" + at(x2) + "V" + at(y2) + "H" +
		at(x) + "z"}
}

func line(class string, x, y, x2, y2 float64) mark {
	return mark{Shape: "line", Class: class, X: at(x), Y: at(y), X2: at(x2), Y2: at(y2)}
}

func circle(class string, x, y, radius float64) mark {
	return mark{Shape: "circle", Class: class, X: at(x), Y: at(y), X2: at(radius)}
}

// words is text in the middle of a place, or by anchor beginning or ending there.
func words(class string, x, y float64, anchor, text string) mark {
	return mark{Shape: "text", Class: class, X: at(x), Y: at(y), Anchor: anchor, Text: text}
}

// named gives a drawing its title and description; without one the words that
// stand under it, which have its id, describe it.
func (r *renderer) named(title, desc string, width, height float64, marks []mark) drawing {
	r.drawn++
	return drawing{ID: fmt.Sprintf("g%d", r.drawn), Title: title, Desc: desc, Width: at(width),
		Height: at(height), Marks: marks}
}

// figured writes a drawing with its caption, and its numbers as a table that
// opens beneath.
func (r *renderer) figured(caption, note string, d drawing, numbers []page.Block) {
	r.put("chart", struct {
		Caption string
		Drawing drawing
	}{caption, d})
	if len(numbers) > 0 {
		r.raw("<details><summary>The numbers</summary>\n")
		r.blocks(numbers)
		r.raw("</details>\n")
	}
	r.put("chartend", note)
}

// bare takes the captions and notes off tables that stand under a drawing.
func bare(blocks []page.Block) []page.Block {
	for i, b := range blocks {
		if t, ok := b.(page.Table); ok {
			t.Caption, t.Note = "", ""
			blocks[i] = t
		}
	}
	return blocks
}

// verticalBars are standing bars, each with its amount in whole units at its end.
func (r *renderer) verticalBars(b page.VerticalBars) {
	const room, height, top = 56.0, 110.0, 16.0
	if len(b.Items) == 0 {
		return
	}
	scale := page.ScaleOf(b.Level.At)
	for _, x := range b.Items {
		scale = page.ScaleOf(scale.Lo, scale.Hi, float64(x.Figure.Cents))
	}
	bottom := top + height
	y := func(v float64) float64 { return bottom - scale.Place(v)*height }
	end, foot := room*float64(len(b.Items)), bottom+16
	var marks []mark
	var shown []string
	for i, x := range b.Items {
		left, v := room*float64(i), float64(x.Figure.Cents)
		fill, face := "pale", ""
		if x.Strong {
			fill, face = "solid", "strong"
		}
		marks = append(marks, rect(fill, left+room*0.2, y(0), left+room*0.8, y(v)))
		amountAt := y(v) - 4
		if v < 0 {
			amountAt = y(v) + 12
		}
		marks = append(marks, words(cmp.Or(face, "amount"), left+room/2, amountAt, "middle", x.Figure.Whole()))
		label := words(face, left+room/2, foot+14, "middle", x.Label)
		label.Text, label.Under, _ = strings.Cut(x.Label, "\n")
		marks = append(marks, label)
		shown = append(shown, oneLine(x.Label)+" "+x.Figure.String(""))
	}
	marks = append(marks, line("axis", 0, y(0), end, y(0)))
	if b.Level.Label != "" {
		marks = append(marks, line("level", 0, y(b.Level.At), end, y(b.Level.At)))
	}
	note := b.Note
	if b.Level.Label != "" && !b.LevelTold {
		note = joined(" ", "The dashed line is "+b.Level.Label+".", note)
	}
	title := b.Caption
	if title == "" {
		title = b.Head
	}
	r.figured(b.Caption, note, r.named(title, strings.Join(shown, "; ")+".", end, foot+34, marks), bare(b.Fallback()))
}
