package pdf

import (
	"bytes"
	"fmt"
	"strings"
	"unicode"

	"github.com/go-fonts/liberation/liberationsansbold"
	"github.com/go-fonts/liberation/liberationsansregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"golang.org/x/text/unicode/norm"

	"piecebook/report/page"
)

// family is the name the faces are registered under.
const family = "Liberation Sans"

// missing stands for a character the face has no shape for. It is visible, so
// that a reader sees that something stood there.
const missing = '□'

// face is one weight of the type: what it has shapes for, and their widths.
type face struct {
	style  string // "" or "B", as the PDF library calls it
	ttf    []byte
	font   *sfnt.Font
	buffer sfnt.Buffer
	ascii  [128]int     // widths in thousandths of the size; -1: no shape, 0: not measured yet
	widths map[rune]int // of other characters
	units  int
}

// faces are the two weights of a document. The maps inside are filled as text
// is measured, so a faces belongs to one document and one goroutine.
type faces struct{ regular, bold *face }

func loadFaces() (faces, error) {
	regular, err := loadFace("", liberationsansregular.TTF)
	if err != nil {
		return faces{}, err
	}
	bold, err := loadFace("B", liberationsansbold.TTF)
	return faces{regular, bold}, err
}

func loadFace(style string, ttf []byte) (*face, error) {
	font, err := sfnt.Parse(ttf)
	if err != nil {
		return nil, fmt.Errorf("the built-in type: %w", err)
	}
	// The library writes into the bytes it is given when it cuts the font to
	// the characters used, so every document gets its own.
	return &face{style: style, ttf: bytes.Clone(ttf), font: font, widths: map[rune]int{}, units: int(font.UnitsPerEm())},
		nil
}

// advance is the rune's width in thousandths of the size, or -1.
func (f *face) advance(r rune) int {
	if r >= 0 && int(r) < len(f.ascii) {
		if f.ascii[r] == 0 {
			f.ascii[r] = f.measure(r)
		}
		return f.ascii[r]
	}
	if w, ok := f.widths[r]; ok {
		return w
	}
	w := f.measure(r)
	f.widths[r] = w
	return w
}

func (f *face) measure(r rune) int {
	if string(r) == page.PageHere {
		return 2 * f.advance('0') // a page's number takes its place when pages are known
	}
	if r > 0xFFFF {
		return -1 // the library cannot write it, whatever the font has
	}
	glyph, err := f.font.GlyphIndex(&f.buffer, r)
	if err != nil || glyph == 0 {
		return -1
	}
	// At as many pixels as the face has units an em, the advance is in units.
	wide, err := f.font.GlyphAdvance(&f.buffer, glyph, fixedOf(f.units), 0)
	if err != nil {
		return -1
	}
	return (wide.Round()*1000 + f.units/2) / f.units
}

// width is how wide clean text is at the given size.
func (f *face) width(text string, size float64) float64 {
	sum := 0
	for _, r := range text {
		sum += max(0, f.advance(r))
	}
	return float64(sum) * size / 1000
}

// clean makes text that can be drawn as it is measured: composed (NFC), with
// white space as spaces, control and direction characters by their marks, joiners
// dropped, and what the face has no shape for shown as missing. Line feeds stay: they part lines.
func (f *face) clean(text string) string {
	if f.plain(text) {
		return text
	}
	var b strings.Builder
	for _, r := range norm.NFC.String(text) {
		switch {
		case r == '\n':
			b.WriteRune(r)
		case page.Hidden(r):
			b.WriteString(page.Mark(r))
		case unicode.Is(unicode.Variation_Selector, r), unicode.Is(unicode.Cf, r):
			// Joiners and selectors have no shape of their own.
		case r == '\t', unicode.IsSpace(r) && r != '\u00a0':
			b.WriteByte(' ')
		case f.advance(r) < 0:
			b.WriteRune(missing)
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

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

// plain says that text is printable ASCII that the face has shapes for: nothing to clean.
func (f *face) plain(text string) bool {
	for i := range len(text) {
		if text[i] < ' ' || text[i] > '~' || f.advance(rune(text[i])) < 0 {
			return false
		}
	}
	return true
}
