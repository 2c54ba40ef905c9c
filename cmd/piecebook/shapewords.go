package main

import (
	"regexp"
	"slices"
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

// inShapeWords puts everyday words for shapes into those of the Surfaces table;
// two lengths alone are a rectangle.
func inShapeWords(words string) string {
	if twoNumbers.MatchString(words) && shapeIn(words) == "" {
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

// nearShape is the shape that is nearly named by the first word that is no
// number; blank: none.
func nearShape(words string) string {
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

// minus is a true minus sign, which no parser of flags stumbles over.
const minus = "\u2212"

// minusSigns gives the numbers after `area` a true minus sign, so that -3 is read
// as a number, and refused as one, and not as a flag.
func minusSigns(args []string) []string {
	if !slices.Contains(args, "area") {
		return args
	}
	out := slices.Clone(args)
	for i, a := range out {
		if len(a) > 1 && a[0] == '-' && (a[1] >= '0' && a[1] <= '9' || a[1] == '.') {
			out[i] = minus + a[1:]
		}
	}
	return out
}
