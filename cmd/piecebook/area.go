package main

import (
	"fmt"
	"math/big"
	"regexp"
	"slices"
	"strings"
	"text/tabwriter"

	"piecebook/ledger"
	"piecebook/ledger/intake"
	"piecebook/ledger/measure"
	"piecebook/ledger/money"
)

type areaCmd struct {
	Of []string `arg:"" optional:"" help:"A piece; or a shape in words, as: rectangle 36 x 18; disc 24; square taper top 2 bottom 1 height 16 count 4. Blank: every piece."`
}

// Run works out finish areas.
func (k areaCmd) Run(c *cli, w console) error {
	words := inShapeWords(strings.ReplaceAll(strings.ToLower(strings.Join(k.Of, " ")), minus, "-"))
	if name := shapeIn(words); name != "" {
		return c.shapeArea(w, name, words)
	}
	if near := nearShape(words); near != "" {
		return usage(fmt.Sprintf("%q is no shape. The nearest is %s. It reads, say: %s", strings.Join(k.Of, " "), near,
			exampleOf(near)))
	}
	b, err := c.ready(w, 0)
	if err != nil {
		return err
	}
	pieces := b.read.Books.Pieces
	if len(k.Of) > 0 {
		ids, err := b.named(k.Of)
		if err != nil {
			return usage(fmt.Sprintf("%v Or name a shape: %s.", err, strings.Join(measure.ShapeNames(), ", ")))
		}
		pieces = slices.DeleteFunc(slices.Clone(pieces), func(p ledger.Piece) bool { return !slices.Contains(ids, p.ID) })
	}
	answers := pieceAreas(&b.read.Books, pieces)
	if c.JSON {
		return writeJSON(w, map[string]any{"schema": "piecebook/areas/1", "unit": b.read.Books.Settings.AreaUnit(),
			"pieces": answers})
	}
	tab := tabwriter.NewWriter(w.out, 0, 0, 2, ' ', 0)
	for _, a := range answers {
		fmt.Fprintf(tab, "%s\t%s\t%s\t%s\n", a.Piece, a.Kind, a.areaWords(b.read.Books.Settings.AreaUnit()), a.From)
		for _, part := range a.Parts {
			fmt.Fprintf(tab, "\t  %s\t%s\t%s\n", part.Part, part.Area, part.Shape)
		}
	}
	return tab.Flush()
}

// pieceArea is one piece's answer.
type pieceArea struct {
	Piece string     `json:"piece"`
	Kind  string     `json:"kind"`
	Area  *string    `json:"area"`
	From  string     `json:"from"`
	Parts []partArea `json:"parts,omitempty"`
}

type partArea struct {
	Part  string `json:"part"`
	Shape string `json:"shape"`
	Area  string `json:"area"`
}

func (a pieceArea) areaWords(unit string) string {
	if a.Area == nil {
		return "no area"
	}
	return *a.Area + " " + unit
}

// pieceAreas lists pieces with what their areas come from; the parts of
// Surfaces are shown to 0.01 each, while their sum is rounded once.
func pieceAreas(b *ledger.Books, pieces []ledger.Piece) []pieceArea {
	from := map[ledger.AreaFrom]string{ledger.AreaTyped: "typed in Pieces", ledger.AreaSurfaces: "summed from Surfaces",
		ledger.AreaTypical: "typical of its kind", ledger.AreaUnknown: "type one under area in Pieces, or measure " +
			"it in Surfaces"}
	out := []pieceArea{}
	for _, p := range pieces {
		a := pieceArea{Piece: p.ID, Kind: p.Kind, From: from[p.AreaFrom]}
		if p.Area != nil {
			text := money.Fixed(p.Area, 2)
			a.Area = &text
		}
		for _, s := range b.Surfaces {
			if s.Piece == p.ID {
				one := measure.Area(b.Settings.Metric(), intake.ShapeOf(s))
				a.Parts = append(a.Parts, partArea{s.Part, s.Shape, money.Fixed(one.Rounded, 2)})
			}
		}
		out = append(out, a)
	}
	slices.SortFunc(out, func(x, y pieceArea) int { return strings.Compare(x.Piece, y.Piece) })
	return out
}

// shapeIn is the shape that words begin with, after a count; blank: none.
func shapeIn(words string) string {
	rest := strings.TrimLeft(words, "0123456789 ")
	for _, name := range measure.ShapeNames() {
		if rest == name || strings.HasPrefix(rest, name+" ") || rest == name+"s" || strings.HasPrefix(rest, name+"s ") {
			return name
		}
	}
	return ""
}

// shapeArea works out one shape given in words.
func (c *cli) shapeArea(w console, name, words string) error {
	shape, err := shapeFromWords(name, words, c.metric())
	if err != nil {
		return usage(err.Error())
	}
	if refused := shape.Check(); len(refused) > 0 {
		return usage(fmt.Sprintf("%s It reads, say: %s", refused[0].Error(), exampleOf(name)))
	}
	unit := map[bool]string{false: "sq ft", true: "sq m"}[c.metric()]
	area := measure.Area(c.metric(), shape)
	if c.JSON {
		return writeJSON(w, map[string]string{"schema": "piecebook/area/1", "shape": name, "unit": unit,
			"area": money.Fixed(area.Rounded, 2), "unrounded": area.Digits()})
	}
	_, err = fmt.Fprintf(w.out, "%s %s%s\n", money.Fixed(area.Rounded, 2), unit, roundingWords(area))
	return err
}

// roundingWords says what an area was before it was rounded, in six decimals at
// most; and where it lay just half way, that such are rounded to the even digit.
func roundingWords(area measure.Finish) string {
	if area.Sum.Cmp(area.Rounded) == 0 {
		return ""
	}
	before := money.AtMost(area.Sum, 6)
	apart := new(big.Rat).Sub(area.Sum, area.Rounded)
	if apart.Abs(apart).Cmp(big.NewRat(1, 200)) == 0 {
		return fmt.Sprintf(" (%s before rounding; a half goes to the even figure)", before)
	}
	return fmt.Sprintf(" (%s before rounding)", before)
}

// metric asks the settings where there are any; inches else.
func (c *cli) metric() bool {
	b, err := c.open(0)
	return err == nil && b.read.Books.Settings.Metric()
}

func exampleOf(name string) string {
	numbers := map[string]string{"width": "12", "height": "18", "top": "2", "bottom": "1", "sides": "6"}
	words := name
	for _, need := range measure.ShapeNeeds(name) {
		words += " " + need + " " + numbers[need]
	}
	return "piecebook area " + words
}

// shapeFromWords reads `4 square taper top 2 bottom 1 height 16` or
// `rectangle 36 x 18`: numbers without a word stand in the order the shape
// needs them.
func shapeFromWords(name, words string, metric bool) (measure.Shape, error) {
	shape := measure.Shape{Name: name}
	before, after, _ := strings.Cut(words, name)
	after = strings.TrimPrefix(after, "s ")
	given := map[string]string{}
	if n := strings.TrimSpace(before); n != "" {
		given["count"] = n
	}
	needs := measure.ShapeNeeds(name)
	for _, part := range parts(after) {
		key := part.word
		if key == "" {
			i := slices.IndexFunc(needs, func(n string) bool { return given[n] == "" })
			if i < 0 {
				return shape, fmt.Errorf("%q is one number too many for a %s. It reads, say: %s", part.number, name,
					exampleOf(name))
			}
			key = needs[i]
		}
		given[key] = part.number
	}
	for key, text := range given {
		if err := setMeasure(&shape, key, text, metric); err != nil {
			return shape, err
		}
	}
	return shape, nil
}

type wordNumber struct{ word, number string }

// measureWords are the words that may stand before a number.
var measureWords = []string{"width", "height", "top", "bottom", "sides", "count", "faces", "relief"}

// timesSign finds the x of 36x18, which has no blanks around it.
var timesSign = regexp.MustCompile(`([0-9"'])[x×]([0-9])`)

// parts splits words into numbers with the word before each.
func parts(text string) []wordNumber {
	var out []wordNumber
	var word string
	var number []string
	flush := func() {
		if len(number) > 0 {
			out = append(out, wordNumber{word, strings.Join(number, " ")})
		}
		word, number = "", nil
	}
	text = timesSign.ReplaceAllString(strings.ReplaceAll(text, ",", " x "), "$1 x $2")
	for _, token := range strings.Fields(text) {
		switch {
		case token == "x" || token == "×" || token == "by":
			flush()
		case slices.Contains(measureWords, token):
			flush()
			word = token
		default:
			if len(number) > 0 && startsAnew(number[len(number)-1], token) {
				flush()
			}
			number = append(number, token)
		}
	}
	flush()
	return out
}

// startsAnew says that a token begins a new number and does not go on with the
// one before it, as 18 does after 36, but neither 1/2 nor in, nor 6 after 3 ft.
func startsAnew(before, token string) bool {
	if strings.HasSuffix(before, "'") || slices.Contains([]string{"ft", "feet", "foot", "m", "yd"}, before) {
		return false
	}
	return wholeNumber.MatchString(token)
}

var wholeNumber = regexp.MustCompile(`^-?[0-9]+([.][0-9]+)?["'½¼¾]?$`)

// setMeasure reads one number of a shape.
func setMeasure(s *measure.Shape, key, text string, metric bool) error {
	var value *big.Rat
	var refused *measure.Refusal
	switch key {
	case "width", "height", "top", "bottom":
		value, refused = measure.ReadLength(text, measure.Style{}, metric)
	default:
		value, refused = measure.Number(text, measure.Style{})
	}
	if refused != nil {
		return fmt.Errorf("%s %q: %s", key, text, refused.Error())
	}
	switch key {
	case "width":
		s.Width = value
	case "height":
		s.Height = value
	case "top":
		s.Top = value
	case "bottom":
		s.Bottom = value
	case "count":
		s.Count = value
	case "faces":
		s.Faces = value
	case "relief":
		s.Relief = value
	case "sides":
		if !value.IsInt() {
			return fmt.Errorf("sides %q: a polygon has a whole number of sides", text)
		}
		s.Sides = int(value.Num().Int64())
	}
	return nil
}
