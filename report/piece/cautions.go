package piece

import (
	"slices"

	"piecebook/ledger"
	"piecebook/ledger/figures"
	"piecebook/report"
	"piecebook/report/page"
	"piecebook/report/words"
)

// cautionsAnchor is where the words of the sheets' cautions stand; a month's own
// may stand in the same document.
const cautionsAnchor = "sheets-cautions"

// pieceCautions are the cautions that a piece's supplies, parts, tasks, kind
// and age call for up to the period's end, by letter.
func pieceCautions(in *report.Input, p figures.Piece) []report.Caution {
	supplies := suppliesOn(in, p.Record.ID)
	var out []report.Caution
	for _, c := range in.LetteredCautions() {
		if c.Usual == nil && slices.ContainsFunc(supplies, c.Of) || c.Usual != nil && callsFor(in, c, p.Record, supplies) {
			out = append(out, c)
		}
	}
	return out
}

// callsFor says that a piece's records call for a shipped caution.
func callsFor(in *report.Input, c report.Caution, rec *ledger.Piece, supplies []*ledger.Supply) bool {
	w := c.Usual.When
	if !w.Age(rec.Made, rec.OldFinish) {
		return false
	}
	if w.Kind(rec.Kind) || w.Part(rec.Description) || slices.ContainsFunc(supplies, c.Of) {
		return true
	}
	of := in.OfPiece(rec.ID)
	return slices.ContainsFunc(of.Hours, func(h report.HoursOf) bool { return w.Task(h.Task) }) ||
		slices.ContainsFunc(of.Parts, func(x *ledger.Part) bool { return w.Part(x.What) })
}

// suppliesOn are the supplies used on a piece or charged to it up to the
// period's end, in the order of the records.
func suppliesOn(in *report.Input, id string) []*ledger.Supply {
	used := map[string]bool{}
	of := in.OfPiece(id)
	for _, u := range of.Uses {
		used[u.Supply] = true
	}
	for _, p := range of.Postings {
		if p.Supply != "" {
			used[p.Supply] = true
		}
	}
	var out []*ledger.Supply
	for i := range in.Books.Supplies {
		if used[in.Books.Supplies[i].Name] {
			out = append(out, &in.Books.Supplies[i])
		}
	}
	return out
}

// cautionLine names a sheet's cautions by letter, and where their words stand.
func cautionLine(in *report.Input, p figures.Piece) []page.Block {
	var out []page.Block
	if list := pieceCautions(in, p); len(list) > 0 {
		out = append(out, page.Paragraph{Style: page.Note, Link: cautionsAnchor,
			Text: "Cautions and the meaning of words, page " + page.PageHere + ": " + report.CautionNames(list) + "."})
	}
	if text := in.Cautions.RecordsOnly; text != "" {
		out = append(out, page.Paragraph{Style: page.Note, Text: text})
	}
	return out
}

// cautionSection is the full words of the cautions that the pieces' sheets name,
// and what the words of the table of supplies mean.
func cautionSection(in *report.Input, pieces []figures.Piece) page.Section {
	var list []report.Caution
	for _, p := range pieces {
		list = append(list, pieceCautions(in, p)...)
	}
	s := page.Section{Title: "Cautions", Anchor: cautionsAnchor, NewPage: true, Blocks: in.CautionBlocks(list)}
	if text := meaning(pieces); text != "" {
		s.Blocks = append(s.Blocks, page.Heading{Text: "The table of supplies", Level: 1}, page.Paragraph{Text: text})
	}
	return s
}

// meaning says what the table of supplies has; blank where no piece has any.
func meaning(pieces []figures.Piece) string {
	known := words.BasesMean(func(b ledger.Basis) bool {
		return slices.ContainsFunc(pieces, func(p figures.Piece) bool {
			return slices.ContainsFunc(p.Shares, func(s figures.Share) bool { return s.Basis == b })
		})
	})
	if known == "" {
		return ""
	}
	return "A supply's cost is shared over all pieces that it was used on until it was counted or bought again: " +
		"the piece's part, divided by that of all pieces, times the cost of all. An area coated counts once for every " +
		"coat; coated in all, every coat of every supply. How known: " + known + "."
}
