package pdf

import (
	"strings"

	"golang.org/x/image/math/fixed"
)

func fixedOf(n int) fixed.Int26_6 { return fixed.I(n) }

// slack is what sums of widths may differ by when they are added up in another
// order: far less than can be seen.
const slack = 0.01

// wrap breaks clean text into lines no wider than width: at spaces, and inside
// a word only where the word alone is wider than a line.
func (f *face) wrap(text string, size, width float64) []string {
	var lines []string
	for _, part := range strings.Split(text, "\n") {
		lines = append(lines, f.wrapLine(part, size, width)...)
	}
	return lines
}

func (f *face) wrapLine(text string, size, width float64) []string {
	var lines []string
	line, lineWidth := "", 0.0
	space := f.width(" ", size)
	for word := range strings.SplitSeq(text, " ") {
		if word == "" {
			continue
		}
		w := f.width(word, size)
		if line != "" && lineWidth+space+w <= width+slack {
			line, lineWidth = line+" "+word, lineWidth+space+w
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		for w > width+slack {
			head, tail := f.cut(word, size, width)
			if tail == "" {
				break
			}
			lines = append(lines, head)
			word, w = tail, f.width(tail, size)
		}
		line, lineWidth = word, w
	}
	if line != "" || len(lines) == 0 {
		lines = append(lines, line)
	}
	return lines
}

// cut parts a word that is wider than a line: after a mark that words may be
// parted at, where one is in reach, else wherever the line is full.
func (f *face) cut(word string, size, width float64) (head, tail string) {
	sum, end, mark := 0.0, 0, 0
	for i, r := range word {
		sum += float64(max(0, f.advance(r))) * size / 1000
		if sum > width+slack && i > 0 {
			break
		}
		end = i + len(string(r))
		if strings.ContainsRune("-/_.,:;)", r) {
			mark = end
		}
	}
	if mark > len(word)/4 && mark < len(word) && mark <= end {
		end = mark
	}
	return word[:end], word[end:]
}

// longestWord is the width below which a column would have to part a word.
func (f *face) longestWord(text string, size float64) float64 {
	widest := 0.0
	for word := range strings.FieldsFuncSeq(text, func(r rune) bool { return r == ' ' || r == '\n' }) {
		widest = max(widest, f.width(word, size))
	}
	return widest
}

// shorten cuts clean text to the width with an ellipsis, for lines that must
// stay one line and say the whole elsewhere.
func (f *face) shorten(text string, size, width float64) string {
	text = strings.ReplaceAll(text, "\n", " ")
	if f.width(text, size) <= width {
		return text
	}
	runes := []rune(text)
	for len(runes) > 0 && f.width(string(runes)+"…", size) > width {
		runes = runes[:len(runes)-1]
	}
	return strings.TrimRight(string(runes), " ") + "…"
}
