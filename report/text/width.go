package text

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
	"golang.org/x/text/width"

	"piecebook/report/page"
)

// columns is how many columns of a terminal text takes: two for wide shapes,
// none for marks that sit on the letter before.
func columns(text string) int {
	n := 0
	for _, r := range text {
		n += runeColumns(r)
	}
	return n
}

func runeColumns(r rune) int {
	if unicode.In(r, unicode.Mn, unicode.Me, unicode.Cf) {
		return 0
	}
	switch width.LookupRune(r).Kind() {
	case width.EastAsianWide, width.EastAsianFullwidth:
		return 2
	}
	return 1
}

// clean composes text, shows what would move the cursor or turn the line around
// by its mark, and takes out page numbers, of which a terminal has none.
func clean(text string) string { return page.Visible(norm.NFC.String(page.Pageless(text))) }

// Fold is text in lines of at most so many columns, for words beside a report.
func Fold(words string, wide int) []string { return wrap(words, wide) }

// wrap breaks text at spaces into lines of at most wide columns, and words
// only where one alone is wider.
func wrap(text string, wide int) []string {
	wide = max(2, wide)
	var lines []string
	for part := range strings.SplitSeq(clean(text), "\n") {
		line := ""
		for word := range strings.FieldsSeq(part) {
			if line != "" && columns(line)+1+columns(word) <= wide {
				line += " " + word
				continue
			}
			if line != "" {
				lines = append(lines, line)
			}
			for columns(word) > wide {
				end := fitting(word, wide)
				lines = append(lines, word[:end])
				word = word[end:]
			}
			line = word
		}
		lines = append(lines, line)
	}
	return lines
}

// Hang breaks a line of its own, such as a message, into lines of at most wide
// columns; the further ones stand two columns further in.
func Hang(line string, wide int) []string {
	bare := strings.TrimLeft(line, " ")
	indent := line[:len(line)-len(bare)]
	if columns(line) <= wide {
		return []string{line}
	}
	out := wrap(bare, wide-len(indent)-2)
	for i := range out {
		if out[i] = indent + out[i]; i > 0 {
			out[i] = "  " + out[i]
		}
	}
	return out
}

// fitting is how many bytes of text take at most wide columns; at least one rune.
func fitting(text string, wide int) int {
	n := 0
	for i, r := range text {
		n += runeColumns(r)
		if n > wide && i > 0 {
			return i
		}
	}
	return len(text)
}

func padLeft(text string, wide int) string {
	return strings.Repeat(" ", max(0, wide-columns(text))) + text
}

func padRight(text string, wide int) string {
	return text + strings.Repeat(" ", max(0, wide-columns(text)))
}
