package month

import (
	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/closing"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/cells"
	"piecebook/report/page"
	"piecebook/report/words"
)

// correctedAnchor names the section of corrections and of earlier months.
const correctedAnchor = "corrected"

// earlierTitle is that section's title.
const earlierTitle = "Corrections to earlier months"

// corrected are the corrections to closed months that the month carries, and
// what would differ in earlier months that were made; nothing without either.
func corrected(in *report.Input) []page.Block {
	var blocks []page.Block
	for _, c := range in.Corrections {
		blocks = append(blocks, correctionBlocks(in, c)...)
	}
	return append(blocks, earlierBlocks(in)...)
}

// correctionBlocks are the lines that corrections count in, and the records
// changed since the months were closed.
func correctionBlocks(in *report.Input, c *closing.Corrections) []page.Block {
	lines := page.Table{Caption: words.CorrectionsCaption, Span: 5, Whole: true,
		Columns: page.Heads{}.Wide(1, "Line").Money("Amount")}
	for _, l := range figures.CorrectedLines(c.Postings) {
		lines.Add(page.Text(words.CorrectedLine(l)), cells.Money(l.Cents).Opens(correctedOf(l, c.Postings)))
	}
	netOf := &report.Listed{Title: words.CorrectedNet}
	net := correctedBy(c, figures.LineNetProfit, netOf)
	lines.AddStyled(page.GrandTotal, page.Text(words.CorrectedNet), cells.Full(net).Opens(netOf))
	out := []page.Block{page.KeepTogether{Blocks: []page.Block{page.Paragraph{Text: words.CorrectionsLead(c)}, lines}}}
	for _, year := range c.Years() {
		if year < c.Month().Year() {
			out = append(out, page.Paragraph{Text: words.OverTaxYear(year, figures.Effect(figures.OfStatement,
				figures.LineNetProfit, c.OfYear(year)))})
		}
	}
	if len(c.Changes) > 0 {
		out = append(out, changeTable(in, c.Changes))
	}
	return out
}

// correctedOf is the postings of corrections that count in a line.
func correctedOf(l figures.CorrectedLine, postings []ledger.Posting) *report.Listed {
	out := &report.Listed{Title: words.CorrectedLine(l)}
	for _, p := range postings {
		line, sign := figures.LineOf(l.Of, &p)
		if line != nil && line.ID == l.ID && (!line.ByGroup || p.Group == l.Group) {
			out.Add(p, sign)
		}
	}
	return out
}

// changeTable is records with what happened to them. A record's own amount
// stands beside it only where it alone explains the figures.
func changeTable(in *report.Input, changes []closing.Change) page.Block {
	dayFirst := in.Settings().DayFirst
	t := page.Table{Caption: words.ChangesCaption,
		Columns: page.Heads{}.Wide(2, "Record").Wide(3, "What happened").Money("Amount").Small("Where")}
	for _, c := range changes {
		amount := page.Empty()
		if len(changes) == 1 && c.Line().Cents != 0 {
			amount = cells.Money(c.Line().Cents)
		}
		t.Add(page.Text(words.ChangedRecord(c, dayFirst)), page.Text(words.Capital(words.Happened(c, dayFirst))), amount,
			page.Text(c.Line().Place.Short()))
	}
	return cells.WithoutBlank(t, "Amount")
}

// earlierBlocks says which earlier months would differ from their packs, by
// how much and through which records.
func earlierBlocks(in *report.Input) []page.Block {
	var out []page.Block
	for _, s := range in.Earlier {
		if s.Nothing() {
			continue
		}
		blocks := []page.Block{page.Paragraph{Text: words.SinceMade(s)}}
		if len(s.Amounts) > 0 {
			t := page.Table{Span: 5, Whole: true,
				Columns: page.Heads{}.Wide(1, s.Month.Name()).Money("In its pack", "Now", "By")}
			for _, a := range s.Amounts {
				t.Rows = append(t.Rows, movedRow(in, s.Month, a))
			}
			blocks = append(blocks, t)
		}
		out = append(out, page.KeepTogether{Blocks: blocks})
		if s.Money() && len(s.Changes) > 0 {
			out = append(out, changeTable(in, s.Changes))
		}
	}
	return out
}

// movedRow is a figure of an earlier month in its pack and now. Each opens: that
// of the pack to where it stands, that of now to its postings where a line of the
// month has them, and the difference to both.
func movedRow(in *report.Input, m calendar.Month, a closing.Amount) page.Row {
	by := sincePack(in, m, a)
	return page.Line(page.Text(words.Capital(words.Amount(a))), cells.Money(a.Was).Opens(by.Terms[1].Of),
		cells.Money(a.Is).Opens(by.Terms[0].Of), cells.Money(a.By()).Opens(by))
}

// sincePack is by how much a figure of an earlier month moved since its pack was
// made: now less then.
func sincePack(in *report.Input, m calendar.Month, a closing.Amount) *report.Worked {
	title := words.Capital(words.Amount(a)) + ", " + m.Name()
	was := report.InWords(title+", in its pack", "As figures.json of that pack has it.", a.Was)
	return report.SumOf(title+", since its pack was made").Plus("Now", a.Is, figureNow(in, m, a)).
		Plus("In its pack", -a.Was, was)
}

// figureNow is what a figure of an earlier month is made of as the records now
// are.
func figureNow(in *report.Input, m calendar.Month, a closing.Amount) page.Ref {
	of := report.Sum{Of: figures.OfStatement, ID: figures.ID(a.Name), From: m, To: m}
	switch a.Part {
	case closing.InExpenses:
		of.ID, of.Subject = figures.LineExpenses, a.Name
	case closing.InStock:
		of.Of, of.ID = figures.OfStock, figures.LineClosing
	}
	if line := figures.Find(of.Of, of.ID); line != nil && a.Part != closing.InShelf && sumNow(in, of) == a.Is {
		return of
	}
	return &report.Worked{Title: words.Capital(words.Amount(a)) + ", " + m.Name() + ", now",
		Words: "As the records now give it; it opens in the file of " + m.Name() + ", made again.", Cents: a.Is}
}

// sumNow is what the postings under a line come to.
func sumNow(in *report.Input, of report.Sum) money.Cents {
	line, leaves := figures.Find(of.Of, of.ID), figures.Leaves(of.Of, of.ID)
	var sum money.Cents
	for i := range in.Postings {
		if p := &in.Postings[i]; line.Covers(p.Month, of.From, of.To) && (of.Subject == "" || p.Group == of.Subject) {
			sum += in.Adds(leaves, p, of.To)
		}
	}
	return sum
}
