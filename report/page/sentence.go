package page

import "strings"

// Sentence is words with figures among them, each of which may open.
type Sentence []Cell

// Say is a sentence with a figure in place of each %s of its words, which are
// the program's own and no record's.
func Say(words string, figures ...Cell) Sentence {
	var out Sentence
	for i, part := range strings.Split(words, "%s") {
		if i > 0 {
			out = append(out, figures[i-1])
		}
		if part != "" {
			out = append(out, Text(part))
		}
	}
	return out
}

// Named is a figure after what it is called, so that it can be asked by that.
func Named(before, name string, figure Cell) Sentence {
	return Sentence{Text(before), Text(name), Text(" "), figure}
}

// Spoken is an amount in a sentence: text that says how many cents it is.
func Spoken(text string, cents int64) Cell { return Cell{Text: text, Cents: cents} }

// String is the sentence's words.
func (s Sentence) String() string {
	var out strings.Builder
	for _, c := range s {
		out.WriteString(c.Text)
	}
	return out.String()
}

// And is two sentences, one after the other; one that is blank is left out.
func (s Sentence) And(more Sentence) Sentence {
	if len(s) == 0 || len(more) == 0 {
		return append(s, more...)
	}
	return append(append(s, Text(" ")), more...)
}

// Says is a paragraph of sentences.
func Says(style Style, s Sentence) Paragraph {
	return Paragraph{Style: style, Text: s.String(), Figures: s}
}
