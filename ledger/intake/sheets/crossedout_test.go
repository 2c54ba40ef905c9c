package sheets

import (
	"encoding/xml"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Goal: of a text in parts with looks of their own, the parts say whether it is crossed
// out, and not the cell's font, which LibreOffice saves as that of the first part
// (ECMA-376 part 1, 18.4.4 and 18.4.7). Method: texts as two programs save them.
func TestPartsOfATextSayWhatIsCrossedOut(t *testing.T) {
	const struck, plain = `<r><rPr><strike val="true"/></rPr><t>120</t></r>`, `<r><rPr><sz val="11"/></rPr><t>80</t></r>`
	for text, want := range map[string]markKind{
		struck + plain:              markOwnLooks,
		struck + struck:             markStruck,
		struck + `<r><t>80</t></r>`: 0, // the second part looks as the cell does
		`<t>80</t>`:                 0,
	} {
		var runs struckRuns
		d := xml.NewDecoder(strings.NewReader("<si>" + text + "</si>"))
		for token, err := d.Token(); err == nil; token, err = d.Token() {
			if e, is := token.(xml.StartElement); is {
				runs.start(e)
			}
		}
		require.Equal(t, want, runs.mark(), text)
		part := Cell{kind: runs.mark(), style: style{struck: true}}
		require.Equal(t, want != markOwnLooks, part.IsStruck(), text)
	}
}
