package measure

import (
	"fmt"
	"math/big"
	"strings"

	"piecebook/ledger/fault"
	"piecebook/ledger/money"
)

// Shape is one part to be finished. Lengths are in inches (centimetres);
// what a shape does not use may be nil. Count, Faces and Relief multiply the
// area, nil being 1.
type Shape struct {
	Name   string // one of ShapeNames
	Count  *big.Rat
	Width  *big.Rat
	Height *big.Rat
	Top    *big.Rat
	Bottom *big.Rat
	Sides  int
	Faces  *big.Rat
	Relief *big.Rat
}

// shapes are the shapes with the measures each needs and its area formula, in
// square inches (centimetres).
var shapes = []struct {
	name  string
	needs []string
	area  func(Shape) *big.Rat
}{
	{"rectangle", []string{"width", "height"}, rectangle},
	{"triangle", []string{"width", "height"}, triangle},
	{"disc", []string{"width"}, disc},
	{"polygon", []string{"width", "sides"}, polygon},
	{"cylinder", []string{"width", "height"}, cylinder},
	{"cone", []string{"top", "bottom", "height"}, cone},
	{"square taper", []string{"top", "bottom", "height"}, squareTaper},
}

// polygonSidesMax bounds the series of the tangent: beyond it a polygon is a
// disc to the eye and to the cent.
const polygonSidesMax = 1000

// ShapeNames are the shapes there are.
func ShapeNames() []string {
	names := make([]string, len(shapes))
	for i, s := range shapes {
		names[i] = s.name
	}
	return names
}

// ShapeNeeds are the measures a shape needs: width, height, top, bottom, sides.
func ShapeNeeds(shape string) []string {
	for _, s := range shapes {
		if strings.EqualFold(s.name, shape) {
			return s.needs
		}
	}
	return nil
}

// Check tells every measure the shape lacks or has out of range.
func (s Shape) Check() []*Refusal {
	needs := ShapeNeeds(s.Name)
	if needs == nil {
		return []*Refusal{{Code: fault.CodeShapeMeasure, Field: "shape", Why: "There is no shape of that name.",
			Fix: "Type one of " + strings.Join(ShapeNames(), ", ") + "."}}
	}
	var out []*Refusal
	name := strings.ToLower(s.Name)
	add := func(field, why, fix string) {
		out = append(out, &Refusal{Code: fault.CodeShapeMeasure, Field: field, Why: why, Fix: fix})
	}
	lengths := map[string]*big.Rat{"width": s.Width, "height": s.Height, "top": s.Top, "bottom": s.Bottom}
	for _, need := range needs {
		length, isLength := lengths[need]
		tip := need == "top" || need == "bottom" // either end may come to a point
		switch {
		case !isLength && s.Sides == 0:
			add("sides", "A polygon needs its number of sides.", "Type it in the column sides, such as 6.")
		case !isLength && (s.Sides < 3 || s.Sides > polygonSidesMax):
			add("sides", fmt.Sprintf("A polygon has from 3 to %d sides.", polygonSidesMax), "Type the number of "+
				"sides, such as 6.")
		case isLength && length == nil:
			add(need, fmt.Sprintf("A %s needs its %s.", name, need), fmt.Sprintf("Type it in the column %s.", need))
		case isLength && (length.Sign() < 0 || length.Sign() == 0 && !tip):
			add(need, fmt.Sprintf("The %s of a %s must be above 0.", need, name), "Type the measure again.")
		}
	}
	for _, m := range []struct {
		name  string
		value *big.Rat
	}{{"count", s.Count}, {"faces", s.Faces}, {"relief", s.Relief}} {
		if m.value != nil && m.value.Sign() <= 0 {
			add(m.name, fmt.Sprintf("The %s must be above 0.", m.name), "Type a number, or leave the cell blank for 1.")
		}
	}
	return out
}

// Exact is the shape's whole area (× count × faces × relief) in square inches
// (centimetres): exact where it is rational, else to over 50 digits. The
// shape must pass Check.
func (s Shape) Exact() *big.Rat {
	for _, known := range shapes {
		if strings.EqualFold(known.name, s.Name) {
			area := known.area(s)
			for _, factor := range []*big.Rat{s.Count, s.Faces, s.Relief} {
				if factor != nil {
					area.Mul(area, factor)
				}
			}
			return area
		}
	}
	return new(big.Rat)
}

// Finish is the sum of shapes in square feet (square metres): Sum as exact as
// Exact is, Rounded to 0.01, once, half to even.
type Finish struct {
	Sum     *big.Rat
	Rounded *big.Rat
}

// Digits is the unrounded area to 40 significant digits, zeros at the end
// left out.
func (f Finish) Digits() string { return significant(f.Sum, 40) }

// Area sums shapes that have passed Check. Square inches become square feet
// by 144, square centimetres square metres by 10,000.
func Area(metric bool, shapes ...Shape) Finish {
	per := int64(144)
	if metric {
		per = 10000
	}
	sum := new(big.Rat)
	for _, s := range shapes {
		sum.Add(sum, s.Exact())
	}
	sum.Quo(sum, big.NewRat(per, 1))
	return Finish{Sum: sum, Rounded: money.RoundTo(sum, 2)}
}

func rectangle(s Shape) *big.Rat { return new(big.Rat).Mul(s.Width, s.Height) }

func triangle(s Shape) *big.Rat { return half(rectangle(s)) }

// disc is π·width²/4.
func disc(s Shape) *big.Rat {
	square := new(big.Rat).Mul(s.Width, s.Width)
	return square.Mul(square.Mul(square, big.NewRat(1, 4)), pi())
}

// polygon is n·s²/(4·tan(π/n)), regular, of side s.
func polygon(s Shape) *big.Rat {
	area := new(big.Rat).Mul(s.Width, s.Width)
	area.Mul(area, big.NewRat(int64(s.Sides), 4))
	return area.Quo(area, tangentOfPiOver(s.Sides))
}

// cylinder is the side only: π·width·height.
func cylinder(s Shape) *big.Rat {
	area := rectangle(s)
	return area.Mul(area, pi())
}

// cone is the side of a frustum with diameters top and bottom and its height
// measured straight: π·(R+r)·√((R−r)²+h²).
func cone(s Shape) *big.Rat {
	area := half(new(big.Rat).Add(s.Top, s.Bottom))
	area.Mul(area, slant(s))
	return area.Mul(area, pi())
}

// squareTaper is four sides of a leg: (top+bottom)/2·√(h²+((top−bottom)/2)²)·4.
func squareTaper(s Shape) *big.Rat {
	area := new(big.Rat).Add(s.Top, s.Bottom)
	area.Mul(area, big.NewRat(2, 1))
	return area.Mul(area, slant(s))
}

// slant is √(h²+((top−bottom)/2)²).
func slant(s Shape) *big.Rat {
	step := half(new(big.Rat).Sub(s.Top, s.Bottom))
	square := step.Mul(step, step)
	return squareRoot(square.Add(square, new(big.Rat).Mul(s.Height, s.Height)))
}

// half is x/2, in place.
func half(x *big.Rat) *big.Rat { return x.Mul(x, big.NewRat(1, 2)) }
