package questions

import (
	"bytes"
	"fmt"
	"math/big"
	"slices"
	"strings"
	"text/tabwriter"

	"piecebook/cmd/piecebook/cli"
	"piecebook/cmd/piecebook/shapewords"
	"piecebook/cmd/piecebook/terminal"
	"piecebook/ledger"
	"piecebook/ledger/intake"
	"piecebook/ledger/measure"
	"piecebook/ledger/money"
)

type AreaCmd struct {
	Of []string `arg:"" optional:"" help:"A piece; or a shape in words, as: rectangle 36 x 18; disc 24; square taper top 2 bottom 1 height 16 count 4. Blank: every piece."`
}

// Run works out finish areas.
func (k AreaCmd) Run(c *cli.Call, w terminal.Console) error {
	words := shapewords.InTableWords(strings.ReplaceAll(strings.ToLower(strings.Join(k.Of, " ")), Minus, "-"))
	if name := shapewords.In(words); name != "" {
		return shapeArea(c, w, name, words)
	}
	if near := shapewords.Nearest(words); near != "" {
		return cli.Usagef("%q is not a shape. The nearest is %s. It reads, say: %s", strings.Join(k.Of, " "), near,
			shapewords.Example(near))
	}
	b, err := c.Ready(w, 0)
	if err != nil {
		return err
	}
	pieces := b.Read.Books.Pieces
	if len(k.Of) > 0 {
		ids, err := b.Named(k.Of)
		if err != nil {
			return cli.Usagef("%v Or name a shape: %s.", err, strings.Join(measure.ShapeNames(), ", "))
		}
		pieces = slices.DeleteFunc(slices.Clone(pieces), func(p ledger.Piece) bool { return !slices.Contains(ids, p.ID) })
	}
	answers := pieceAreas(&b.Read.Books, pieces)
	if c.JSON {
		return cli.WriteJSON(w, map[string]any{"schema": "piecebook/areas/1", "unit": b.Read.Books.Settings.AreaUnit(),
			"pieces": answers})
	}
	if c.Plain {
		return plainAreas(w, answers, b.Read.Books.Settings.AreaUnit())
	}
	var lines bytes.Buffer
	tab := tabwriter.NewWriter(&lines, 0, 0, 2, ' ', 0)
	for _, a := range answers {
		fmt.Fprintf(tab, "%s\t%s\t%s\t%s\n", a.Piece, a.Kind, a.areaWords(b.Read.Books.Settings.AreaUnit()), a.From)
		for _, part := range a.Parts {
			fmt.Fprintf(tab, "\t  %s\t%s\t%s\n", part.Part, part.Area, part.Shape)
		}
	}
	_ = tab.Flush() // to memory
	_, err = lines.WriteTo(w.Out)
	return err
}

// plainAreas prints one fact a line.
func plainAreas(w terminal.Console, answers []pieceArea, unit string) error {
	var lines []string
	for _, a := range answers {
		lines = append(lines, fmt.Sprintf("%s, %s: %s, %s", a.Piece, a.Kind, a.areaWords(unit), a.From))
		for _, part := range a.Parts {
			lines = append(lines, fmt.Sprintf("%s, %s: %s %s, %s", a.Piece, part.Part, part.Area, unit, part.Shape))
		}
	}
	_, err := fmt.Fprintln(w.Out, strings.Join(lines, "\n"))
	return err
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

// shapeArea works out one shape given in words.
func shapeArea(c *cli.Call, w terminal.Console, name, words string) error {
	shape, err := shapewords.Read(name, words, metric(c))
	if err != nil {
		return cli.Usage(err.Error())
	}
	if refused := shape.Check(); len(refused) > 0 {
		return cli.Usagef("%s It reads, say: %s", refused[0].Error(), shapewords.Example(name))
	}
	unit := map[bool]string{false: "sq ft", true: "sq m"}[metric(c)]
	area := measure.Area(metric(c), shape)
	if c.JSON {
		return cli.WriteJSON(w, map[string]string{"schema": "piecebook/area/1", "shape": name, "unit": unit,
			"area": money.Fixed(area.Rounded, 2), "unrounded": area.Digits()})
	}
	_, err = fmt.Fprintf(w.Out, "%s %s%s\n", money.Fixed(area.Rounded, 2), unit, roundingWords(area))
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
func metric(c *cli.Call) bool {
	b, err := c.Open(0)
	return err == nil && b.Read.Books.Settings.Metric()
}

// Minus is a true minus sign, which no parser of flags stumbles over.
const Minus = "\u2212"
