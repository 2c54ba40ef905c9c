package terminal

import (
	"io"
	"strings"
	"unicode"

	"golang.org/x/text/width"

	"piecebook/report/page"
)

// What switches a terminal's bold type on and off (ECMA-48, select graphic
// rendition 1 and 0).
const boldOn, boldOff = "\x1b[1m", "\x1b[0m"

// peopleWriter is a writer of what is said to people. Names and paths of theirs cannot
// steer a terminal: what has no shape is shown by its mark. On a terminal lines
// are broken at blanks where they are wider than it is (0: it is none); what
// follows stands under the line's own indent.
type peopleWriter struct {
	io.Writer
	wide int
}

// Write takes whole lines, as all that is said to people is written.
func (w peopleWriter) Write(p []byte) (int, error) {
	var b strings.Builder
	for line := range strings.Lines(w.marked(string(p))) {
		if w.wide == 0 {
			b.WriteString(line)
		} else {
			w.fold(&b, line)
		}
	}
	if _, err := io.WriteString(w.Writer, b.String()); err != nil {
		return 0, err
	}
	return len(p), nil
}

// marked is a text with what has no shape shown by its mark, but for what
// switches bold on and off on a terminal.
func (w peopleWriter) marked(text string) string {
	if w.wide == 0 {
		return page.Visible(text)
	}
	var parts []string
	for part := range strings.SplitSeq(text, boldOn) {
		inner := strings.Split(part, boldOff)
		for i := range inner {
			inner[i] = page.Visible(inner[i])
		}
		parts = append(parts, strings.Join(inner, boldOff))
	}
	return strings.Join(parts, boldOn)
}

// fold writes a line in lines no wider than the terminal; a word wider than
// that stays whole.
func (w peopleWriter) fold(b *strings.Builder, line string) {
	indent := line[:len(line)-len(strings.TrimLeft(line, " "))]
	for {
		at, fits := lastBlank(line, len(indent), w.wide)
		if fits || at < 0 {
			b.WriteString(line)
			return
		}
		b.WriteString(strings.TrimRight(line[:at], " ") + "\n")
		line = indent + strings.TrimLeft(line[at:], " ")
	}
}

// lastBlank is the last blank after an indent that so many columns reach, -1
// where there is none, and whether the whole line fits. What switches bold on
// and off takes no column.
func lastBlank(line string, indent, wide int) (at int, fits bool) {
	at = -1
	column := 0
	for i, r := range strings.TrimSuffix(line, "\n") {
		switch {
		case strings.HasPrefix(line[i:], boldOn), strings.HasPrefix(line[i:], boldOff):
			column -= len(boldOn) - 1 // its other signs are counted below
			continue
		case r == ' ' && i >= indent && column <= wide:
			at = i
		}
		column += columns(r)
	}
	return at, column <= wide
}

// columns is how many columns a terminal gives a letter: two to those that are
// wide in East Asian typography (Unicode Standard Annex 11), none to marks that
// stand on the letter before, one to all others.
func columns(r rune) int {
	switch kind := width.LookupRune(r).Kind(); {
	case kind == width.EastAsianWide, kind == width.EastAsianFullwidth:
		return 2
	case unicode.Is(unicode.Mn, r):
		return 0
	}
	return 1
}
