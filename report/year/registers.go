package year

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/ledger/taxyear"
	"piecebook/report"
	"piecebook/report/cells"
	"piecebook/report/page"
	"piecebook/report/words"
	"piecebook/templates"
)

// mileageLog is the year's trips with the rate of each, and what the form
// asks of the vehicle.
func mileageLog(in *report.YearInput) []page.Block {
	m := in.Tax.Mileage
	unit := in.Settings().DistanceUnit()
	if len(m.Trips) == 0 {
		return []page.Block{page.Paragraph{Text: "No trip is written down."}}
	}
	t := page.Table{Columns: []page.Column{{Head: "Date", Kind: page.KindDate}, {Head: "Purpose", Weight: 2},
		{Head: "For", Weight: 1},
		{Head: words.Capital(unit), Kind: page.KindNumber}, {Head: "Rate", Kind: page.KindNumber},
		{Head: "Amount", Kind: page.KindMoney}, {Head: "Tolls", Kind: page.KindMoney}, {Head: "Record", Small: true}}}
	for _, d := range m.Trips {
		rate := page.Empty()
		if d.Rate != nil {
			rate = cells.Number(d.Rate.PerMile, 4)
		}
		t.Rows = append(t.Rows, page.Line(page.Date(d.Record.On.String()), page.Text(words.Trip(*d.Record)),
			page.Text(words.TripFor(*d.Record)),
			cells.Number(d.Record.Miles, 1), rate, cells.Money(d.Amount), cells.Money(d.Record.Tolls),
			page.Text(words.Unbroken(d.Record.At.Short()))))
	}
	t.Rows = append(t.Rows, page.Styled(page.GrandTotal, page.Text("All trips"), page.Empty(), page.Empty(),
		cells.Number(m.Miles, 1), page.Empty(), cells.Money(m.Amount), cells.Money(m.Tolls)))
	t.Note = "Line " + in.Tax.Number(figures.LineTrips) + " is amount and tolls together. Rates: " + rateWords(in) + "."
	return append([]page.Block{cells.WithoutBlank(t, "Tolls")}, vehicle(in)...)
}

// rateWords are the year's rates with their sources.
func rateWords(in *report.YearInput) string {
	var out []string
	for _, r := range in.Tax.Mileage.Rates {
		source := "built in, data/mileage.toml"
		if r.Own {
			source = "settings.toml"
		}
		if text := in.RateSources[r.From.String()]; text != "" && !r.Own {
			source = text
		}
		out = append(out, fmt.Sprintf("%s from %s (%s)", money.AtMost(r.PerMile, 4), r.From, source))
	}
	return strings.Join(out, "; ")
}

// vehicle is what the form asks of the vehicle.
func vehicle(in *report.YearInput) []page.Block {
	m, set := in.Tax.Mileage, in.Settings()
	unit := set.DistanceUnit()
	given := func(s string) string {
		if s == "" {
			return "not given"
		}
		return s
	}
	total, other := "", ""
	if m.Total != nil {
		total = words.Thousands(money.AtMost(m.Total, 1))
		other = words.Thousands(money.AtMost(new(big.Rat).Sub(m.Total, m.Miles), 1))
	}
	ask := in.Tax.Table.Words.Vehicle
	if ask.Heading == "" {
		return nil
	}
	facts := page.Facts{Columns: 1}
	add := func(label, value string) {
		if label != "" {
			facts.Items = append(facts.Items, page.Fact{Label: strings.ReplaceAll(label, "{unit}", unit), Value: value})
		}
	}
	add(ask.Service, given(set.InService.String()))
	add(ask.Shop, words.Thousands(money.AtMost(m.Miles, 1)))
	add(ask.Other, given(other))
	add("All {unit} of the year", given(total))
	add(ask.Private, "for the owner to answer")
	return []page.Block{page.Heading{Text: ask.Heading, Level: 1}, facts, page.Paragraph{Style: page.Note, Text: ask.Note}}
}

// equipmentRegister is every tool with what was and will be written off of it.
func equipmentRegister(in *report.YearInput) []page.Block {
	y := in.Tax
	if len(y.Assets) == 0 {
		return []page.Block{page.Paragraph{Text: "No equipment is written down."}}
	}
	t := page.Table{Columns: append([]page.Column{{Head: "Bought on", Kind: page.KindDate}, {Head: "What", Weight: 1},
		{Head: "Life"}},
		append(page.Cols(page.KindMoney, "Cost", "Before", fmt.Sprint(y.Year), "Still to come"), page.Column{Head: "Receipt",
			Small: true}, page.Column{Head: "Record", Small: true})...)}
	var cost, before, now, after money.Cents
	for _, a := range y.Assets {
		this := a.Now
		life := a.Record.Life
		if a.Yearly == nil && a.Record.On.Year == y.Year {
			this = a.Cost
		}
		if len(a.Yearly) > 1 {
			life += " years"
		}
		row := page.Line(page.Date(a.Record.On.String()), page.Text(a.Record.What), page.Text(life), cells.Money(a.Cost),
			cells.Money(a.Before), cells.Money(this), cells.Money(a.After), page.Text(a.Record.Receipt),
			page.Text(a.Record.At.Short()))
		if a.Percent != nil {
			row.Note = assetWords(a, y.Year)
		}
		t.Rows = append(t.Rows, row)
		cost, before, now, after = cost+a.Cost, before+a.Before, now+this, after+a.After
	}
	t.Rows = append(t.Rows, page.Styled(page.GrandTotal, page.Text("All equipment"), page.Empty(), page.Empty(),
		cells.Money(cost), cells.Money(before), cells.Money(now), cells.Money(after)))
	t.Note = "Over years by " + in.Law.Depreciation.Source + ". Each year is rounded to the cent, the last " +
		"takes what is " +
		"left. An item counts as in use from the day it was bought. At once: within the limit per item of the " +
		"day it was bought" + words.After(", ", in.Law.Rule(templates.RuleAtOnce).Words) + "."
	out := []page.Block{t}
	if x := y.LateBuying; x != nil {
		out = append(out, page.Paragraph{Style: page.Caution, Text: fmt.Sprintf("%s %% of the year's cost to be written off "+
			"over years was bought from October on. Above %s %% another table takes the place of this one (%s). The amounts here are by this one all the same: the preparer decides.",
			money.Fixed(x.Percent, 1), in.Law.Depreciation.LastQuarterPercent.FloatString(0), x.Source)})
	}
	return out
}

// assetWords is this year's write-off for a pocket calculator.
func assetWords(a taxyear.Asset, year int) string {
	n := year - a.Record.On.Year + 1
	if len(a.Yearly) == 1 {
		return "the whole cost, as the special first-year allowance"
	}
	if n == len(a.Yearly) {
		return fmt.Sprintf("year %d of %d: what is left", n, n)
	}
	return fmt.Sprintf("year %d of %d: %s × %s %% = %s", n, len(a.Yearly), a.Cost.Grouped(), money.Fixed(a.Percent, 2),
		a.Now.Grouped())
}

// salesTaxList goes from what was owed at the start to what is owed at the end.
func salesTaxList(in *report.YearInput) []page.Block {
	t := page.Table{Span: 5, Whole: true, NoHead: true, Columns: []page.Column{{Weight: 1}, {Kind: page.KindMoney}}}
	var owed money.Cents
	for _, x := range in.Tax.SalesTax {
		t.Rows = append(t.Rows, page.Line(page.Text(x.Label), cells.Money(x.Cents)))
		owed += x.Cents
	}
	t.Rows = append(t.Rows, page.Styled(page.GrandTotal, page.Text("Owed at the year's end"), page.FullMoney(int64(owed))))
	out := []page.Block{t}
	sent := page.Table{Caption: "Sent in", Columns: []page.Column{{Head: "Date", Kind: page.KindDate},
		{Head: "For", Weight: 1}, {Head: "Amount", Kind: page.KindMoney}, {Head: "Kept", Kind: page.KindMoney},
		{Head: "Receipt", Small: true}, {Head: "Record", Small: true}}}
	for _, x := range in.Books.TaxPaid {
		if x.On.Year == in.Tax.Year {
			sent.Rows = append(sent.Rows, page.Line(page.Date(x.On.String()), page.Text(x.Period), cells.Money(x.Amount),
				cells.Money(x.Kept), page.Text(x.Receipt), page.Text(x.At.Short())))
		}
	}
	if len(sent.Rows) > 0 {
		out = append(out, sent)
	}
	return append(out, page.Paragraph{Style: page.Note, Text: "Tax that a marketplace collected and paid " +
		"over is in none " +
		"of these; it stands beside each channel's sales."})
}

// workersList is the year's outside work by who did it.
func workersList(in *report.YearInput) []page.Block {
	if len(in.Tax.Workers) == 0 {
		return []page.Block{page.Paragraph{Text: "No outside work is written down."}}
	}
	t := page.Table{Columns: []page.Column{{Head: "Who", Weight: 1}, {Head: "Jobs", Kind: page.KindNumber},
		{Head: "Paid", Kind: page.KindMoney}, {Head: "Records", Small: true}}}
	var sum money.Cents
	for _, w := range in.Tax.Workers {
		name := w.Name
		if name == "" {
			name = "not named"
		}
		t.Rows = append(t.Rows, page.Line(page.Text(name), cells.Count(w.Jobs), cells.Money(w.Cents),
			page.Text(words.Sources(w.Rows))))
		sum += w.Cents
	}
	t.Rows = append(t.Rows, page.Styled(page.GrandTotal, page.Text("All outside work"), page.Empty(), cells.Money(sum)))
	t.Note = "Whether a form goes to or for any of them is for the preparer."
	return []page.Block{t}
}

// paperLists is the costs without a receipt, then every money record with its own.
func paperLists(in *report.YearInput) []page.Block {
	over := in.Spoken(in.Settings().ReceiptsOver)
	out := []page.Block{page.Heading{Text: "Costs above " + over + " without a receipt", Level: 1}}
	switch {
	case len(in.Tax.NoReceipt) > 0:
		out = append(out, paperTable(in.Tax.NoReceipt, false))
	case !slices.ContainsFunc(in.Tax.Papers, func(p taxyear.Paper) bool {
		return p.Cost &&
			p.Cents > in.Settings().ReceiptsOver
	}):
		out = append(out, page.Paragraph{Text: "No cost is above " + over + "."})
	default:
		out = append(out, page.Paragraph{Text: "Every cost above " + over + " names a receipt."})
	}
	out = append(out, page.Heading{Text: "Every money record of the year", Level: 1}, paperTable(in.Tax.Papers, true))
	return out
}

func paperTable(papers []taxyear.Paper, grouped bool) page.Block {
	t := page.Table{Columns: []page.Column{{Head: "Date", Kind: page.KindDate}, {Head: "What", Weight: 1},
		{Head: "Amount", Kind: page.KindMoney}, {Head: "Receipt", Small: true}, {Head: "Record", Small: true}}}
	table := ""
	for _, p := range papers {
		text := p.What
		if grouped && p.Table != table {
			table = p.Table
			t.Rows = append(t.Rows, page.Styled(page.Group, page.Text(table)))
		}
		if !grouped {
			text = p.Table + ": " + text
		}
		receipt := p.Receipt
		if receipt == "" {
			receipt = "none"
		}
		t.Rows = append(t.Rows, page.Line(page.Date(p.On.String()), page.Text(text), cells.Money(p.Cents), page.Text(receipt),
			page.Text(p.At.Short())))
	}
	return t
}

// yearTies are the year's reconciliations.
func yearTies(in *report.YearInput) []page.Block { return report.TieBlocks(in.Tax.Ties) }

func tieNamed(in *report.YearInput, name string) *figures.Tie {
	for i := range in.Tax.Ties {
		if in.Tax.Ties[i].Name == name {
			return &in.Tax.Ties[i]
		}
	}
	return nil
}

// ruleSources is where the rules come from that the year's amounts rest on.
func ruleSources(in *report.YearInput) page.Block {
	t := page.Table{Caption: "Sources of the rules", Columns: []page.Column{{Head: "Rule"}, {Head: "Source", Weight: 1}}}
	add := func(rule, source string) { t.Rows = append(t.Rows, page.Line(page.Text(rule), page.Text(source))) }
	set := in.Settings()
	add("Supplies, as chosen", in.Law.Treatment("tax_supplies", set.TaxSupplies).Source)
	add("Pieces in stock, as chosen", in.Law.Treatment("tax_stock", set.TaxStock).Source)
	add("Equipment over years", in.Law.Depreciation.Source)
	add("Another table for late buying", in.Law.Depreciation.LastQuarterSource)
	rule := func(key string) {
		if r := in.Law.Rule(key); r.Source != "" {
			add(r.What, r.Source)
		}
	}
	rule(templates.RuleAtOnce)
	if len(in.Tax.Mileage.Rates) > 0 {
		add("Mileage rates", rateWords(in))
	}
	rule(templates.RuleLog)
	rule(templates.RuleSalesTax)
	return t
}

// keeping is how long papers are kept, and where each line's number is from.
func keeping(in *report.YearInput) []page.Block {
	t := page.Table{Caption: "How long to keep papers", Columns: []page.Column{{Head: "What", Weight: 1},
		{Head: "How long", Weight: 1}, {Head: "Source", Small: true, Weight: 1}}}
	for _, k := range in.Law.Keep {
		t.Rows = append(t.Rows, page.Line(page.Text(k.What), page.Text(k.Long), page.Text(k.Source)))
	}
	return []page.Block{page.Paragraph{Text: in.Law.Sources}, page.Paragraph{Text: in.Tax.Table.Source},
		lineSources(in.Tax.Lines), ruleSources(in), t, page.Paragraph{Text: in.Cautions.RecordsOnly}}
}

// lineSources is where each line's number is from. Lines that say no more than
// their form and number stand together.
func lineSources(lines []taxyear.Line) page.Block {
	t := page.Table{Caption: "Sources of the lines", Columns: []page.Column{{Head: "Lines"}, {Head: "Source", Weight: 1}}}
	row := map[string]int{}
	runs := map[string][][2]int{} // of each source, runs of lines by their place in the form
	for i, l := range lines {
		source := strings.TrimSuffix(l.Source, ", line "+l.Line)
		if _, ok := row[source]; !ok {
			row[source] = len(t.Rows)
			t.Rows = append(t.Rows, page.Line(page.Empty(), page.Text(source)))
		}
		of := runs[source]
		if n := len(of); n > 0 && of[n-1][1] == i-1 {
			of[n-1][1] = i
		} else {
			runs[source] = append(of, [2]int{i, i})
		}
	}
	for source, at := range row {
		var text []string
		for _, r := range runs[source] {
			text = append(text, lineRun(lines[r[0]].Line, lines[r[1]].Line, r[1]-r[0]))
		}
		t.Rows[at].Cells[0] = page.Text(strings.Join(text, ", "))
	}
	return t
}

func lineRun(first, last string, more int) string {
	switch more {
	case 0:
		return first
	case 1:
		return first + ", " + last
	}
	return first + " to " + last
}
