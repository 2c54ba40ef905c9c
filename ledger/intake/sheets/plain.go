package sheets

import (
	"errors"
	"path"
	"strings"

	"piecebook/ledger/fault"
)

// openText reads a plain file. One that holds nothing, not even column names, is
// no table that was never begun: most often it is half of a copy that failed.
func openText(f File, known func(string) bool, problems *fault.List) []*Sheet {
	text, guessed, err := Decode(f.Bytes)
	switch {
	case errors.Is(err, errHalfText):
		problems.Add(notRead(f.Name, "This file ends in the middle of a letter, so its end is missing.",
			"Copy it here again, or save it once more as CSV UTF-8."))
		return nil
	case err != nil:
		problems.Add(notRead(f.Name, "This file is not plain text.", saveAgain))
		return nil
	}
	if guessed {
		problems.Add(fault.Problem{Code: fault.CodeLettersGuessed, Note: true, Place: fault.Place{File: f.Name},
			Why: "Its letters are not saved in the usual way (UTF-8), so they were taken for Windows ones.",
			Fix: "If a name looks wrong, save the file again as CSV UTF-8."})
	}
	if strings.TrimSpace(text) == "" {
		problems.Add(emptyFile(f.Name))
		return nil
	}
	base := path.Base(f.Name)
	s := &Sheet{File: f.Name, Known: strings.TrimSuffix(base, path.Ext(base))}
	lines, sep := splitText(text, s.Place(), known, problems)
	s.Lines, s.Separates, s.Letters = unwrapped(lines, known), string(sep), lettersName(f.Bytes, guessed)
	return []*Sheet{s}
}

// unwrapped reads rows each of which was put into quotation marks whole, as
// happens when a plain file is opened as one column and saved again: the one
// cell of each row holds all its cells. It is so where the first row's cell
// holds column names.
func unwrapped(lines []Line, known func(string) bool) []Line {
	for _, l := range lines {
		if len(l.Cells) != 1 || l.Broken {
			return lines
		}
	}
	out := make([]Line, len(lines))
	var sep byte
	for i, l := range lines {
		if i == 0 {
			if sep = separator(l.Cells[0], known); strings.IndexByte(l.Cells[0], sep) < 0 {
				return lines
			}
		}
		s := &splitter{text: l.Cells[0], sep: sep, problems: &fault.List{}}
		out[i] = s.record()
		out[i].Number = l.Number
		if s.at < len(s.text) || out[i].Broken || i == 0 && !known(out[0].Cells[0]) {
			return lines
		}
	}
	return out
}
