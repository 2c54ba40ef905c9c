package page

import (
	"fmt"
	"strings"
	"unicode"
)

// Hidden says that a character has no shape and could steer a terminal or turn
// a line around: control characters but line feeds and tabs, and what sets the
// direction of writing (Unicode property Bidi_Control).
func Hidden(r rune) bool {
	return r != '\n' && r != '\t' && unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r) || r == '\u2028' ||
		r == '\u2029'
}

// Mark is the visible mark of such a character, by its number: \u202e.
func Mark(r rune) string { return fmt.Sprintf(`\u%04x`, r) }

// Visible is a text with visible marks for such characters.
func Visible(text string) string {
	if strings.IndexFunc(text, Hidden) < 0 {
		return text
	}
	var b strings.Builder
	for _, r := range text {
		if Hidden(r) {
			b.WriteString(Mark(r))
		} else {
			b.WriteRune(r)
		}
	}
	return b.String()
}
