package shapewords

import (
	"fmt"
	"math/big"
	"regexp"
	"slices"
	"strings"

	"piecebook/ledger/measure"
)

// Example is how a shape is typed, with the command before it.
func Example(name string) string {
	numbers := map[string]string{"width": "12", "height": "18", "top": "2", "bottom": "1", "sides": "6"}
	words := name
	for _, need := range measure.ShapeNeeds(name) {
		words += " " + need + " " + numbers[need]
	}
	return "piecebook area " + words
}

// Read reads `4 square taper top 2 bottom 1 height 16` or
// `rectangle 36 x 18`: numbers without a word stand in the order the shape
// needs them.
func Read(name, words string, metric bool) (measure.Shape, error) {
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
					Example(name))
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
			if len(number) > 0 && startsNext(number[len(number)-1], token) {
				flush()
			}
			number = append(number, token)
		}
	}
	flush()
	return out
}

// startsNext says that a token begins a new number and does not go on with the
// one before it, as 18 does after 36, but neither 1/2 nor in, nor 6 after 3 ft.
func startsNext(before, token string) bool {
	if strings.HasSuffix(before, "'") || slices.Contains([]string{"ft", "feet", "foot", "m", "yd"}, before) {
		return false
	}
	return wholeNumber.MatchString(token)
}

var wholeNumber = regexp.MustCompile(`^-?[0-9]+([.][0-9]+)?["'½¼¾]?$`)

// setMeasure reads one number of a shape.
func setMeasure(s *measure.Shape, key, text string, metric bool) error {
	var sides *big.Rat
	number := map[string]**big.Rat{"width": &s.Width, "height": &s.Height, "top": &s.Top, "bottom": &s.Bottom,
		"count": &s.Count, "faces": &s.Faces, "relief": &s.Relief, "sides": &sides}[key]
	var refused *measure.Refusal
	switch key {
	case "width", "height", "top", "bottom":
		*number, refused = measure.ReadLength(text, measure.Style{}, metric)
	default:
		*number, refused = measure.Number(text, measure.Style{})
	}
	switch {
	case refused != nil:
		return fmt.Errorf("%s %q: %s", key, text, refused.Error())
	case sides != nil && !sides.IsInt():
		return fmt.Errorf("sides %q: a polygon has a whole number of sides", text)
	case sides != nil:
		s.Sides = int(sides.Num().Int64())
	}
	return nil
}
