package accountant

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report/words"
	wb "piecebook/report/workbook"
)

func shelfColumns() []wb.Column {
	return heads{}.number(0, "No.").text(34, "Supply").text(0, "Container").money(13, shelfMoney...).
		number(0, "Left, containers", "Own coverage", "Stated coverage").text(0, "How known")
}

// shelfMoney are the amounts of a supply's roll-forward.
var shelfMoney = []string{"Opening", "Bought", "Used", "Lost", "Closing"}

// fillShelf is each supply's roll-forward over the period.
func (b *book) fillShelf() {
	s := b.shelf
	s.Landscape, s.Freeze = true, 2
	s.Note("Each amount is a sum of the supply's postings of " + b.periods[0].head + "; the opening is all that came " +
		"before. Closing = opening + bought - used - lost.")
	s.Note("Coverage is what one container does, in " + b.in.Settings().AreaUnit() + " coated, hours or pieces as the " +
		"supply is shared; own is from the shop's counts.")
	first := s.NextRow()
	for _, l := range b.in.Month.Shelf {
		row := s.NextRow()
		of := func(id figures.ID, when ...string) wb.Cell {
			return amount(l.Amount(id)).By(b.byRules(figures.Find(figures.OfShelf, id), append([]string{"Supply no.",
				s.Here("No.", row)}, when...)...))
		}
		in := b.ofPeriod()
		closing := fmt.Sprintf("%s+%s-%s-%s", s.Here("Opening", row), s.Here("Bought", row), s.Here("Used", row),
			s.Here("Lost", row))
		stated := wb.Number(l.Supply.Coverage, 2)
		if l.Supply.UseAll {
			stated = wb.Text("all")
		}
		s.Row(wb.Normal, no(b.supplyNo[l.Supply.Name]), wb.Text(l.Supply.Name), wb.Text(l.Supply.Container),
			of(figures.LineOpening, "Month", `"<"&`+b.firstDay()), of(figures.LineBought, in...),
			of(figures.LineUsed, in...), of(figures.LineLost, in...), amount(l.Closing).By(closing),
			wb.Number(l.Left, 4), wb.Number(l.Own, 2), stated, wb.Text(words.Basis[l.Basis]))
	}
	addSums(s, wb.GrandTotal, first, shelfMoney, wb.Cell{}, wb.Text(wholeShelf))
}

const wholeShelf = "The whole shelf"

func tripColumns(distance string) []wb.Column {
	return heads{}.date(0, "On").text(0, "Purpose", "To", "For").number(0, words.Capital(distance), "Rate").
		number(12, "Drive, unrounded").money(12, "Drive").number(10, "Rounded wrong").summed().
		money(12, "Tolls", "Cost", "Posted", "Difference").summed().text(0, "Record")
}

// fillTrips lists the period's drives.
func (b *book) fillTrips() {
	s := b.trips
	s.Landscape, s.Freeze = true, 1
	s.Note("A trip costs its distance × the rate of its date, rounded, and its tolls. 'Posted' adds up its postings, " +
		"one for each piece it was for.")
	rows := map[string][]posting{}
	first := b.postings.FirstRow() + len(b.openings)
	for i, p := range b.year {
		if p.Reason == ledger.ReasonTrip && len(p.Source) > 0 {
			at := p.Source[0].String()
			rows[at] = append(rows[at], posting{p.Posting, first + i})
		}
	}
	first = s.NextRow()
	for _, t := range slices.SortedStableFunc(slices.Values(b.in.Books.Trips), func(x, y ledger.Trip) int {
		return cmp.Or(x.On.Compare(y.On), x.At.Compare(y.At))
	}) {
		if b.in.Within(t.On) {
			b.trip(t, rows[t.At.String()])
		}
	}
	if s.LastRow() < first {
		s.Row(wb.Quiet, wb.Text("None"))
	}
	addSums(s, wb.GrandTotal, first, []string{"Drive", "Tolls", "Cost", "Posted", "Difference"}, wb.Text(allTrips))
}

const allTrips = "All trips"

func (b *book) trip(t ledger.Trip, posts []posting) {
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
		wb.Number(rate, 4), wb.Exact(exact).By(here(distance)+"*"+here("Rate")), amount(drive),
		flagged(far.Abs(far).Cmp(big.NewRat(51, 10000)) >= 0).By(fmt.Sprintf("IF(ABS(%s-%s)<0.0051,0,1)", here("Drive"),
			here("Drive, unrounded"))), amount(t.Tolls), amount(cost).By(here("Drive")+"+"+here("Tolls")),
		amount(posted).By(b.postings.Sum("Amount", rows)), apart(cost-posted, here("Cost")+"-"+here("Posted")),
		wb.Text(t.At.Short()))
}
