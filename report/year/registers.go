package year

import (
	"cmp"
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

// mileageLog is the year's trips, and what the form asks of the vehicle. The
// rate stands with each trip only where the year had several.
func mileageLog(in *report.YearInput) []page.Block {
	m := in.Tax.Mileage
	unit := in.Settings().DistanceUnit()
	if len(m.Trips) == 0 {
		return nil
	}
	t := page.Table{Columns: page.Heads{}.Date("Date").Wide(3, "Purpose").Wide(1, "For").
		Number(words.Capital(unit), "Rate").Money("Amount", "Tolls").Small("Record")}
	records := trailOf(in)
	for _, d := range m.Trips {
		title := "Trip of " + in.Day(d.Record.On)
		amount := records.of(title, d.Amount, d.Record.At)
		if _, typed := amount.(report.Typed); typed && d.Rate != nil {
			amount = report.InWords(title, fmt.Sprintf("%s %s × %s = %s. Record: %s.", money.AtMost(d.Record.Miles, 4), unit,
				money.AtMost(d.Rate.PerMile, 4), d.Amount.Grouped(), d.Record.At.Short()), d.Amount)
		}
		rate := page.Empty()
		if d.Rate != nil && len(m.Rates) > 1 {
			rate = cells.Number(d.Rate.PerMile, 4)
		}
		t.Add(page.Date(in.Day(d.Record.On)), page.Text(words.Trip(*d.Record)), page.Text(words.TripFor(*d.Record)),
			cells.Number(d.Record.Miles, 1), rate, cells.Money(d.Amount).Opens(amount),
			report.TypedCell(title+": tolls", d.Record.Tolls, d.Record.At), page.Text(words.Unbroken(d.Record.At.Short())))
	}
	t.AddSum(page.GrandTotal, "All trips", "Amount", "Tolls").Cells[3] = cells.Number(m.Miles, 1)
	t.Note = "Line " + in.Tax.Number(figures.LineTrips) + " is amount and tolls together."
	if in.Tax.Alone(figures.LineTrips) == "" {
		t.Note = "Amount and tolls are in line " + in.Tax.Number(figures.LineTrips) + "."
	}
	t.Note += " Rates: " + rateWords(in) + "."
	return append([]page.Block{cells.WithoutBlank(t, "Tolls", "Rate")}, vehicle(in)...)
}

// rateWords are the year's rates with their sources.
func rateWords(in *report.YearInput) string {
	var out []string
	for _, r := range in.Tax.Mileage.Rates {
		source := cmp.Or(in.RateSources[r.From.String()], "built in")
		if r.Own {
			source = "settings.toml"
		}
		out = append(out, fmt.Sprintf("%s from %s (%s)", money.AtMost(r.PerMile, 4), in.Day(r.From), source))
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
	plain := in.Tax.FormForEquipment && ask.OtherHeading != ""
	add := func(label templates.VehicleLabel, value string) {
		if label.Plain == "" {
			return
		}
		text := label.Plain
		if !plain {
			text = label.Line + ", " + text
		}
		facts.Items = append(facts.Items, page.Fact{Label: strings.ReplaceAll(text, "{unit}", unit), Value: value})
	}
	add(ask.Service, given(in.Day(set.InService)))
	add(ask.Shop, words.Thousands(money.AtMost(m.Miles, 1)))
	add(ask.Other, given(other))
	facts.Items = append(facts.Items, page.Fact{Label: "all " + unit + " of the year", Value: given(total)})
	add(ask.Private, "for the owner to answer")
	heading, note := ask.Heading, ask.Note
	if plain {
		heading, note = ask.OtherHeading, ask.OtherNote+" "+note
	}
	return []page.Block{page.Heading{Text: heading, Level: 1}, facts, page.Paragraph{Style: page.Note, Text: note}}
}

// equipmentRegister is every tool with what was and will be written off of it,
// and each that was sold.
func equipmentRegister(in *report.YearInput) []page.Block {
	y := in.Tax
	if len(y.Assets) == 0 {
		return nil
	}
	heads := []string{"Cost", "Before", fmt.Sprint(y.Year), "Still to come", "Left at sale"}
	t := page.Table{Columns: page.Heads{}.Date("Bought on").Wide(1, "What").Text("Life").Money(heads...).
		Small("Receipt", "Record")}
	names, records := []string{}, trailOf(in)
	for i := range y.Assets {
		a := &y.Assets[i]
		life := a.Record.Life
		if len(a.Yearly) > 1 {
			life += " years"
		}
		left := money.Cents(0)
		if a.Sale != nil {
			left = a.Sale.Left
		}
		row := t.Add(page.Date(in.Day(a.Record.On)), page.Text(a.Record.What), page.Text(life))
		opens := assetOf(in, records, a)
		for j, c := range []money.Cents{a.Cost, a.Before, a.This(y.Year), a.After, left} {
			row.Cells = append(row.Cells, cells.Money(c).Opens(opens[j]))
		}
		row.Cells = append(row.Cells, page.Text(a.Record.Receipt), page.Text(a.Record.At.Short()))
		row.Note = assetWords(a, y.Year)
		if a.Table != nil && !slices.Contains(names, a.Table.Name) {
			names = append(names, a.Table.Name)
		}
	}
	t.AddSum(page.GrandTotal, "All equipment", heads...)
	t.Note = "An item counts as in use from the day it was bought. At once: within the limit per item of the " +
		"day it was bought, " + in.Spoken(y.AtOnceLimit()) + " for " + fmt.Sprint(y.Year) +
		words.After(", ", in.Law.Rule(templates.RuleAtOnce).Words) + "."
	if len(names) > 0 {
		t.Note = "Over years by " + in.Law.Depreciation.Source + ": here " + strings.Join(names, ", ") +
			". Each year is rounded to the cent, the last takes what is left. " + t.Note
	}
	out := []page.Block{cells.WithoutBlank(t, "Left at sale")}
	if x := y.LateBuying; x != nil && x.Limit != nil {
		out = append(out, page.Says(page.Body, lateWords(in, x)))
	}
	return append(out, soldTools(in)...)
}

// costOf is a tool's cost as its record has it, with its tax.
func costOf(a *taxyear.Asset) page.Ref {
	return report.Typed{What: a.Record.What + ": cost", At: a.Record.At, Cents: a.Cost}
}

// leftOf is what was left of a tool's cost when it was sold.
func leftOf(a *taxyear.Asset) page.Ref {
	return report.SumOf(a.Record.What+": left at its sale").Plus("Cost", a.Cost, costOf(a)).
		Less("written off", a.Sale.WrittenOff, nil)
}

// assetOf is what the amounts of a tool in the register open to: its cost, what
// was written off before and in the year, what is still to come, what was left
// at its sale.
func assetOf(in *report.YearInput, records trail, a *taxyear.Asset) (out [5]page.Ref) {
	this, label := a.This(in.Tax.Year), fmt.Sprintf("written off in %d", in.Tax.Year)
	out[0], out[1] = costOf(a), writtenOff(a, in.Tax.Year)
	out[2] = records.of(a.Record.What+": "+label, this, a.Record.At)
	if text := assetWords(a, in.Tax.Year); text != "" {
		out[2] = report.InWords(a.Record.What+": "+label, words.Capital(text)+". Record: "+a.Record.At.Short()+".", this)
	}
	out[3] = report.SumOf(a.Record.What+": still to come").Plus("Cost", a.Cost, out[0]).
		Less("written off before", a.Before, out[1]).Less(label, this, out[2])
	if a.Sale != nil {
		out[4] = leftOf(a)
	}
	return out
}

// lateWords says which tables hold for the year's equipment, and why.
func lateWords(in *report.YearInput, x *taxyear.LateBuying) page.Sentence {
	all, last := report.SumOf("Bought this year, to be written off over years"),
		report.SumOf("Bought from October on, to be written off over years")
	for i := range in.Tax.Assets {
		if a := &in.Tax.Assets[i]; a.Table != nil && a.Record.On.Year == in.Tax.Year {
			all.Plus(a.Record.What, a.Cost, costOf(a))
			if a.Record.On.Month >= 10 {
				last.Plus(a.Record.What, a.Cost, costOf(a))
			}
		}
	}
	text := page.Say("Of the year's cost to be written off over years, %s of %s, "+money.Fixed(x.Percent, 2)+
		" %, was bought from October on", in.Said(x.Last, last), in.Said(x.All, all))
	limit := money.AtMost(x.Limit, 2) + " % (" + x.Source + ")"
	if !x.Applies {
		return append(text, page.Text(", which is not above "+limit+": the table for all the year holds."))
	}
	return append(text, page.Text(fmt.Sprintf(", above %s: the tables by quarter hold for all of it, in later years too. "+
		"The first year's write-off is %s; by the table for all the year it would be %s.", limit, in.Spoken(x.ByQuarter),
		in.Spoken(x.Usual))))
}

// soldTools is the gain or loss on each tool sold in the year.
func soldTools(in *report.YearInput) []page.Block {
	t := page.Table{Caption: "Tools sold", Columns: page.Heads{}.Date("Sold on").Wide(1, "What").Date("Bought on").
		Money("Sold for", "Cost", "Written off", "Left", "Gain or loss").Small("Record")}
	for i := range in.Tax.Assets {
		a := &in.Tax.Assets[i]
		if a.Sale == nil || a.Record.SoldOn.Year != in.Tax.Year {
			continue
		}
		x := a.Record
		gain := report.SumOf(x.What+": gain or loss").Plus("Sold for", x.SoldFor, nil).Less("left", a.Sale.Left, leftOf(a))
		t.Add(page.Date(in.Day(x.SoldOn)), page.Text(x.What), page.Date(in.Day(x.On)),
			cells.Full(x.SoldFor).Opens(report.Typed{What: x.What + ": sold for", At: x.At, Cents: x.SoldFor}),
			cells.Money(a.Cost).Opens(costOf(a)), cells.Money(a.Sale.WrittenOff).Opens(writtenOff(a, in.Tax.Year+1)),
			cells.Money(a.Sale.Left).Opens(leftOf(a)), cells.Full(a.Sale.Gain).Opens(gain), page.Text(x.At.Short()))
	}
	if len(t.Rows) == 0 {
		return nil
	}
	t.Note = "Gain or loss is the price less what was left of the cost" +
		words.After(": ", in.Law.Rule(templates.RuleToolSold).Words) + "." +
		words.After(" The year of a sale counts in part: ", in.Law.Depreciation.Sold.Source) + "."
	return []page.Block{t}
}

// assetWords is this year's write-off for a pocket calculator; blank: none.
func assetWords(a *taxyear.Asset, year int) string {
	n := year - a.Record.On.Year + 1
	sold := ""
	if a.SoldPart != nil && a.Record.SoldOn.Year == year {
		sold = fmt.Sprintf(", of which %s %% to its sale = %s", money.AtMost(a.SoldPart, 4), a.Now.Grouped())
	}
	switch {
	case a.Percent == nil:
		return ""
	case len(a.Yearly) == 1:
		return "the whole cost, as the special first-year allowance"
	case n == len(a.Yearly):
		return fmt.Sprintf("year %d of %d, %s: what is left%s", n, n, a.Table.Name, sold)
	case a.Sale != nil && a.Record.SoldOn.Year < year:
		return ""
	}
	return fmt.Sprintf("year %d of %d, %s: %s × %s %% = %s%s", n, len(a.Yearly), a.Table.Name, a.Cost.Grouped(),
		money.Fixed(a.Percent, 2), taxyear.PercentOf(a.Cost, a.Percent).Grouped(), sold)
}

// salesTaxList goes from what was owed at the start to what is owed at the end.
func salesTaxList(in *report.YearInput) []page.Block {
	if !slices.ContainsFunc(in.Tax.SalesTax, func(x figures.Term) bool { return x.Cents != 0 }) {
		return nil
	}
	t := page.Table{Span: 5, Whole: true, NoHead: true, Columns: page.Heads{}.Wide(1, "").Money("")}
	records := trailOf(in)
	for i, x := range in.Tax.SalesTax {
		name := words.Term(taxyear.RollSalesTax, x)
		of := records.owed(words.Capital(name), x.Cents)
		if i == 0 {
			of = report.Sum{Of: figures.OfStatement, ID: figures.LineSalesTaxOwed, To: in.Month.From - 1}
		}
		t.Add(page.Text(name), cells.Money(x.Cents).Opens(of))
	}
	t.AddSum(page.GrandTotal, "Owed at "+in.Tax.End(), "").Cells[1].Full = true
	out := []page.Block{t}
	sent := page.Table{Caption: "Sent in",
		Columns: page.Heads{}.Date("Date").Wide(1, "For").Money("Amount", "Kept").Small("Receipt", "Record")}
	for _, x := range in.Books.TaxPaid {
		if x.On.Year == in.Tax.Year {
			day := in.Day(x.On)
			sent.Add(page.Date(day), page.Text(x.Period), report.TypedCell("Sales tax sent in on "+day, x.Amount, x.At),
				report.TypedCell("Kept of the sales tax on "+day, x.Kept, x.At), page.Text(x.Receipt), page.Text(x.At.Short()))
		}
	}
	if len(sent.Rows) > 0 {
		out = append(out, sent)
	}
	return append(out, page.Paragraph{Style: page.Note,
		Text: "Tax that a marketplace collected and paid over is in none of these; it stands beside each channel's sales."})
}
