package main

import (
	"io"
	"strings"
)

// What switches a terminal's bold type on and off (ECMA-48, select graphic
// rendition 1 and 0).
const boldOn, boldOff = "\x1b[1m", "\x1b[0m"

// bold is text in bold where it goes to a terminal of so many columns, and
// plain where it does not or NO_COLOR is set.
func (w world) bold(wide int, text string) string {
	if wide == 0 || w.env("NO_COLOR") != "" {
		return text
	}
	return boldOn + text + boldOff
}

// boldFirst is text for standard output whose first line is the answer.
func (w world) boldFirst(text string) string {
	first, rest, _ := strings.Cut(text, "\n")
	return w.bold(w.outWide, first) + "\n" + rest
}

// wrapped is a writer to a terminal that breaks lines at blanks where they are
// wider than it is; what follows stands under the line's own indent.
type wrapped struct {
	io.Writer
	wide int
}

// fitting is w, of a terminal such that nothing said is wider.
func fitting(w io.Writer, wide int) io.Writer {
	if wide == 0 {
		return w
	}
	return wrapped{w, wide}
}

// Write takes whole lines, as all that is said to people is written.
func (w wrapped) Write(p []byte) (int, error) {
	var b strings.Builder
	for line := range strings.Lines(string(p)) {
		w.fold(&b, line)
	}
	if _, err := io.WriteString(w.Writer, b.String()); err != nil {
		return 0, err
	}
	return len(p), nil
}

// fold writes a line in lines no wider than the terminal; a word wider than
// that stays whole.
func (w wrapped) fold(b *strings.Builder, line string) {
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
		column++
	}
	return at, column <= wide
}
