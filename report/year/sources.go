package year

import (
	"strings"

	"piecebook/ledger/taxyear"
	"piecebook/report"
	"piecebook/report/page"
	"piecebook/templates"
)

// ruleSources is where the rules come from that the year's amounts rest on.
func ruleSources(in *report.YearInput) page.Block {
	t := page.Table{Caption: "Sources of the rules", Columns: page.Heads{}.Text("Rule").Wide(1, "Source")}
	add := func(rule, source string) { t.Add(page.Text(rule), page.Text(source)) }
	set := in.Settings()
	add("Supplies, as chosen", in.Law.Treatment("tax_supplies", set.TaxSupplies).Source)
	add("Pieces in stock, as chosen", in.Law.Treatment("tax_stock", set.TaxStock).Source)
	add("Equipment over years", in.Law.Depreciation.Source)
	add("Tables by quarter", in.Law.Depreciation.Late.Source)
	rule := func(key string) {
		if r := in.Law.Rule(key); r.Source != "" {
			add(r.What, r.Source)
		}
	}
	for _, key := range []string{templates.RuleAtOnce, templates.RuleAbove, templates.RuleForm, templates.RuleToolSold} {
		rule(key)
	}
	if limit, source := in.Law.Payees.Limit(in.Tax.Year); limit != nil {
		add("Payments to others", source)
	}
	if in.Law.Reports.Source != "" {
		add("What channels must report", in.Law.Reports.Source)
	}
	if in.Law.Home.Source != "" {
		add("Use of the home", in.Law.Home.Source)
	}
	if len(in.Tax.Mileage.Rates) > 0 {
		add("Mileage rates", rateWords(in))
	}
	rule(templates.RuleLog)
	rule(templates.RuleSalesTax)
	return t
}

// keeping is how long papers are kept, and where each line's number is from.
func keeping(in *report.YearInput) []page.Block {
	t := page.Table{Caption: "How long to keep papers", Columns: page.Heads{}.Wide(1, "What", "How long", "Source")}
	for _, k := range in.Law.Keep {
		t.Add(page.Text(k.What), page.Text(k.Long), page.Text(k.Source))
	}
	return []page.Block{page.Paragraph{Text: in.Law.Sources.Words}, page.Paragraph{Text: in.Tax.Table.Source},
		lineSources(in.Tax.Lines), ruleSources(in), t, page.Paragraph{Text: in.Cautions.RecordsOnly}}
}

// lineSources is where each line's number is from. Lines that say no more than
// their form and number stand together.
func lineSources(lines []taxyear.Line) page.Block {
	t := page.Table{Caption: "Sources of the lines", Columns: page.Heads{}.Text("Lines").Wide(1, "Source")}
	row := map[string]int{}
	runs := map[string][][2]int{} // of each source, runs of lines by their place in the form
	for i, l := range lines {
		source := l.Source
		if _, ok := row[source]; !ok {
			row[source] = len(t.Rows)
			t.Add(page.Empty(), page.Text(source))
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
