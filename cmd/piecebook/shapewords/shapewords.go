// Package shapewords reads a shape typed in words, such as `disc 24` or
// `rectangle 36 x 18`, as the Surfaces table has it.
package shapewords

import (
	"regexp"
	"strings"

	"piecebook/ledger/fault"
	"piecebook/ledger/measure"
)

// otherShapes are everyday words for a shape.
var otherShapes = map[string]string{"circle": "disc", "circles": "discs", "round": "disc", "disk": "disc",
	"disks":  "discs",
	"square": "rectangle", "tube": "cylinder", "dowel": "cylinder"}

// twoNumbers is `36 x 18` with no shape before it.
var twoNumbers = regexp.MustCompile(`^[0-9][0-9 ./"'½¼¾⅛⅜⅝⅞]* ?(x|×|by) ?[0-9]`)

// InTableWords puts everyday words for shapes into those of the Surfaces table;
// two lengths alone are a rectangle.
func InTableWords(words string) string {
	if twoNumbers.MatchString(words) && In(words) == "" {
		return "rectangle " + words
	}
	if strings.Contains(words, "square taper") {
		return words
	}
	fields := strings.Fields(words)
	for i, w := range fields {
		if known := otherShapes[w]; known != "" {
			fields[i] = known
			if w == "square" && i+2 == len(fields) {
				fields = append(fields, "x", fields[i+1]) // one side is enough
			}
			break
		}
	}
	return strings.Join(fields, " ")
}

// Nearest is the shape that is nearly named by the first word that is no
// number; blank: none.
func Nearest(words string) string {
	rest := strings.TrimLeft(words, "0123456789 ")
	known := measure.ShapeNames()
	for other := range otherShapes {
		known = append(known, other)
	}
	first, _, numbers := strings.Cut(rest, " ")
	if !numbers || len(first) < 3 {
		return ""
	}
	near := fault.Nearest(first, known)
	if same := otherShapes[near]; same != "" {
		return strings.TrimSuffix(same, "s")
	}
	return near
}

// In is the shape that words begin with, after a count; blank: none.
func In(words string) string {
	rest := strings.TrimLeft(words, "0123456789 ")
	for _, name := range measure.ShapeNames() {
		if rest == name || strings.HasPrefix(rest, name+" ") || rest == name+"s" || strings.HasPrefix(rest, name+"s ") {
			return name
		}
	}
	return ""
}
