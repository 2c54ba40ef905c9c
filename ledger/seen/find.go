package seen

import (
	"strings"

	"piecebook/ledger/fault"
)

// At says whether a place is what the owner typed for it, in any of the ways
// it is printed: `pieces.csv:4`, `records/pieces.csv:4`, `Shop book.xlsx
// Pieces:4`, `pieces.csv, row 4, column "price"` and the same with only the row,
// the sheet or the file. Case and quotation marks do not count.
func At(p fault.Place, typed string) bool {
	want := plain(typed)
	whole := p.Short()
	for _, way := range []string{
		p.String(), p.At("").String(), whole, p.File,
		strings.TrimSuffix(p.File, last(p.File)) + whole, whole + ":" + p.Column,
		last(p.File), last(p.File) + " " + p.Sheet,
	} {
		if plain(way) == want {
			return true
		}
	}
	return false
}

func last(path string) string { return path[strings.LastIndexByte(path, '/')+1:] }

func plain(s string) string {
	return strings.ToLower(strings.Join(strings.Fields(strings.NewReplacer(`"`, "", `\`, "/").Replace(s)), " "))
}
