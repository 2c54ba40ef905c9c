package intake

import (
	"fmt"
	"regexp"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/fault"
	"piecebook/ledger/intake/rows"
)

// several is a name of more than one thing: 2 dining chairs, pair of nightstands.
var several = regexp.MustCompile(
	`(?i)^(?:[2-9]|1\d|two|three|four|five|six|eight|(?:a )?pair(?: of)?|set(?: of)?(?: (?:\d|two|three|four|five|six|eight))?)` +
		` (?:\pL+ )*(\pL+?)s$`)

// noteSeveral notes a line of Pieces whose name is that of several things of its kind.
func (rec *record) noteSeveral(p ledger.Piece) {
	m := several.FindStringSubmatch(strings.TrimSpace(p.ID))
	if m == nil || !strings.HasSuffix(strings.TrimSuffix(strings.ToLower(p.Kind), "s"), strings.ToLower(m[1])) {
		return
	}
	rec.NoteForCause("piece", "several", fault.CodePieceOfSeveral, 0, func(c *rows.Cause) (string, string) {
		return fmt.Sprintf("By its name this is more than one, and it is read as one piece, whose usual area is that of one.%s",
				c.More()), "It may stay if they are sold together. If not, give each a line in Pieces, and their price a line in " +
				"Lots that these name under lot."
	})
}
