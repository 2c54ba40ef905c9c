package accountant

import (
	"fmt"
	"math/big"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report/words"
	wb "piecebook/report/workbook"
)

func shelfColumns() []wb.Column {
	out := []wb.Column{{Head: "No.", Kind: wb.KindNumber}, {Head: "Supply", Width: 34}, {Head: "Container"}}
	for _, head := range []string{"Opening", "Bought", "Used", "Lost", "Closing"} {
		out = append(out, wb.Column{Head: head, Kind: wb.KindMoney, Width: 13})
	}
	return append(out, wb.Column{Head: "Left, containers", Kind: wb.KindNumber}, wb.Column{Head: "Own coverage",
		Kind: wb.KindNumber},
		wb.Column{Head: "Stated coverage", Kind: wb.KindNumber}, wb.Column{Head: "How known", Kind: wb.KindText})
}

// fillShelf is each supply's roll-forward over the period.
func (b *book) fillShelf() {
	s := b.shelf
	s.Landscape, s.Freeze = true, 2
	s.Note("Each amount is a sum of the supply's postings of " + b.periods[0].head + "; the opening is all that came " +
		"before. Closing = opening + bought - used - lost.")
	s.Note("Coverage is what one container does, in " + b.in.Settings().AreaUnit() + " coated, hours or pieces as the " +
		"supply is shared; own is from the shop's counts.")
	first := s.NextRow()
	var sums [5]money.Cents
	for _, l := range b.in.Month.Shelf {
		row := s.NextRow()
		number := s.Here("No.", row)
		of := func(id figures.ID, when ...string) string {
			return b.byRules(figures.Find(figures.OfShelf, id), append([]string{"Supply no.", number}, when...)...)
		}
		in := []string{"Month", `">="&` + b.firstDay(), "Month", `"<="&` + b.lastDay()}
		opening := of(figures.LineOpening, "Month", `"<"&`+b.firstDay())
		closing := fmt.Sprintf("%s+%s-%s-%s", s.Here("Opening", row), s.Here("Bought", row), s.Here("Used", row),
			s.Here("Lost", row))
		stated := wb.Number(l.Supply.Coverage, 2)
		if l.Supply.UseAll {
			stated = wb.Text("all")
		}
		s.Row(wb.Normal, no(b.supplyNo[l.Supply.Name]), wb.Text(l.Supply.Name), wb.Text(l.Supply.Container),
			amount(l.Opening).By(opening),
			amount(l.Bought).By(of(figures.LineBought, in...)), amount(l.Used).By(of(figures.LineUsed, in...)),
			amount(l.Lost).By(of(figures.LineLost, in...)), amount(l.Closing).By(closing),
			wb.Number(l.Left, 4), wb.Number(l.Own, 2), stated, wb.Text(words.Basis[l.Basis]))
		for i, c := range []money.Cents{l.Opening, l.Bought, l.Used, l.Lost, l.Closing} {
			sums[i] += c
		}
	}
	total := []wb.Cell{{}, wb.Text(wholeShelf), {}}
	for i, c := range sums {
		by := "0"
		if len(b.in.Month.Shelf) > 0 {
			by = "SUM(" + s.HereRange(s.Columns[3+i].Head, first, s.LastRow()) + ")"
		}
		total = append(total, amount(c).By(by))
	}
	s.Row(wb.GrandTotal, total...)
}

const wholeShelf = "The whole shelf"

func tripColumns(distance string) []wb.Column {
	return []wb.Column{{Head: "On", Kind: wb.KindDate}, {Head: "Purpose"}, {Head: "To"}, {Head: "For"},
		{Head: words.Capital(distance), Kind: wb.KindNumber}, {Head: "Rate", Kind: wb.KindNumber},
		{Head: "Drive, unrounded", Kind: wb.KindNumber, Width: 12}, {Head: "Drive", Kind: wb.KindMoney, Width: 12}, {Head: "Rounded wrong", Kind: wb.KindNumber, Width: 10, Summed: true},
		{Head: "Tolls", Kind: wb.KindMoney, Width: 12}, {Head: "Cost", Kind: wb.KindMoney, Width: 12},
		{Head: "Posted", Kind: wb.KindMoney, Width: 12}, {Head: "Difference", Kind: wb.KindMoney, Width: 12, Summed: true},
		{Head: "Record"}}
}

// fillTrips lists the period's drives.
func (b *book) fillTrips() {
	s := b.trips
	s.Landscape, s.Freeze = true, 1
	s.Note("A trip costs its distance × the rate of its date, rounded, and its tolls. 'Posted' adds up its " +
		"postings, one " +
		"for each piece it was for.")
	rows := map[string][]posting{}
	first := b.postings.FirstRow() + len(b.openings)
	for i, p := range b.year {
		if p.Reason == ledger.ReasonTrip && len(p.Source) > 0 {
			at := p.Source[0].String()
			rows[at] = append(rows[at], posting{p.Posting, first + i})
		}
	}
	trips := byDay(b.in.Books.Trips, func(t ledger.Trip) calendar.Date { return t.On },
		func(x, y ledger.Trip) int { return x.At.Compare(y.At) })
	first = s.NextRow()
	var sums [5]money.Cents
	for _, t := range trips {
		if b.in.Within(t.On) {
			b.trip(t, rows[t.At.String()], &sums)
		}
	}
	if s.LastRow() < first {
		s.Row(wb.Quiet, wb.Text("None"))
	}
	total := make([]wb.Cell, 13)
	total[0] = wb.Text(allTrips)
	for i, head := range []string{"Drive", "Tolls", "Cost", "Posted", "Difference"} {
		at := []int{7, 9, 10, 11, 12}[i]
		total[at] = amount(sums[i]).By("SUM(" + s.HereRange(head, first, s.LastRow()) + ")")
	}
	s.Row(wb.GrandTotal, total...)
}

const allTrips = "All trips"

func (b *book) trip(t ledger.Trip, posts []posting, sums *[5]money.Cents) {
	s := b.trips
	row := s.NextRow()
	here := func(head string) string { return s.Here(head, row) }
	distance := s.Columns[4].Head
	rate := new(big.Rat)
	if r := ledger.RateOn(b.in.Settings().Mileage, t.On); r != nil {
		rate = r.PerMile
	}
	exact := new(big.Rat).Mul(t.Miles, rate)
	drive := money.Round(new(big.Rat).Mul(exact, big.NewRat(100, 1)))
	var posted money.Cents
	var rows []int
	for _, p := range posts {
		posted += p.Cents
		rows = append(rows, p.row)
	}
	whom := strings.Join(t.Pieces, ", ")
	if whom == "" {
		whom = "the shop"
	}
	cost := drive + t.Tolls
	far := new(big.Rat).Sub(units(drive.Rat()), exact)
	s.Row(wb.Normal, dayCell(t.On), wb.Text(t.Purpose), wb.Text(t.To), wb.Text(whom), wb.Number(t.Miles, -4),
		wb.Number(rate, 4),
		wb.Exact(exact).By(here(distance)+"*"+here("Rate")), amount(drive),
		flagged(far.Abs(far).Cmp(big.NewRat(51, 10000)) >= 0).By(fmt.Sprintf("IF(ABS(%s-%s)<0.0051,0,1)", here("Drive"),
			here("Drive, unrounded"))), amount(t.Tolls),
		amount(cost).By(here("Drive")+"+"+here("Tolls")), amount(posted).By(b.postings.Sum("Amount", rows)),
		amount((cost - posted).Abs()).InFull().By(fmt.Sprintf("ROUND(ABS(%s-%s),2)", here("Cost"), here("Posted"))),
		wb.Text(t.At.Short()))
	for i, c := range []money.Cents{drive, t.Tolls, cost, posted, (cost - posted).Abs()} {
		sums[i] += c
	}
}
