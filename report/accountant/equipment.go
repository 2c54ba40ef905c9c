package accountant

import (
	"math/big"

	"piecebook/ledger/taxyear"
	wb "piecebook/report/workbook"
)

func equipmentColumns() []wb.Column {
	return heads{}.date(0, "Bought on").text(34, "What").text(0, "Life", "Table").money(14, "Cost", "Before").
		number(0, "Part of the cost", "Part of the year").money(14, "This year").number(0, "Unrounded", "Rounded wrong").
		date(0, "Sold on").money(14, "Sold for", "Left at sale", "Gain or loss", "Still to come").text(0, "Receipt").
		text(30, "Record")
}

// fillEquipment writes the register; each write-off over years stands beside
// its unrounded formula. A last year takes what is left, so its formula is that.
func (b *yearBook) fillEquipment() {
	s := b.equipment
	s.Landscape = true
	s.Note("Part of the cost is this year's percentage of the published table, part of the year what of it counts in " +
		"the year of a sale. Each year is rounded to the cent; the last one takes what is left.")
	first := s.NextRow()
	for i := range b.y.Assets {
		b.asset(&b.y.Assets[i])
	}
	addSums(s, wb.GrandTotal, first, []string{"Cost", "Before", "This year", "Left at sale", "Still to come"},
		wb.Text("All"))
}

// asset writes an item.
func (b *yearBook) asset(a *taxyear.Asset) {
	s := b.equipment
	row := s.NextRow()
	here := func(head string) string { return s.Here(head, row) }
	table, part, ofYear, exact, off := "", wb.Cell{}, wb.Cell{}, wb.Cell{}, wb.Cell{}
	if a.Table != nil {
		table = a.Table.Name
	}
	if a.Percent != nil {
		part, ofYear, exact, off = b.writeOff(a, row)
	}
	rest := here("Cost") + "-" + here("Before") + "-" + here("This year")
	soldOn, soldFor, left, gain := wb.Cell{}, wb.Cell{}, wb.Cell{}, wb.Cell{}
	after := amount(a.After).By(rest)
	if a.Sale != nil {
		soldOn, soldFor, after = dayCell(a.Record.SoldOn), amount(a.Record.SoldFor).InFull(), wb.Cell{}
		left = amount(a.Sale.Left).By(rest)
		gain = amount(a.Sale.Gain).InFull().By(here("Sold for") + "-" + here("Left at sale"))
	}
	s.Row(wb.Normal, dayCell(a.Record.On), wb.Text(a.Record.What), wb.Text(a.Record.Life), wb.Text(table), amount(a.Cost),
		amount(a.Before), part, ofYear, amount(a.This(b.y.Year)), exact, off, soldOn, soldFor, left, gain, after,
		wb.Text(a.Record.Receipt), wb.Text(a.Record.At.Short()))
}

// writeOff is a year's write-off without rounding: the parts it is worked out
// by, the formula, and whether the amount is further from it than rounding
// takes it. In the year of a sale the whole year is rounded first.
func (b *yearBook) writeOff(a *taxyear.Asset, row int) (part, ofYear, exact, off wb.Cell) {
	s := b.equipment
	share := new(big.Rat).Quo(a.Percent, big.NewRat(100, 1))
	value, formula := new(big.Rat).Mul(units(a.Cost.Rat()), share), s.Here("Cost", row)+"*"+s.Here("Part of the cost", row)
	if b.y.Year-a.Record.On.Year+1 == len(a.Yearly) {
		value, formula = units((a.Cost - a.Before).Rat()), "("+s.Here("Cost", row)+"-"+s.Here("Before", row)+")"
	}
	near, text := big.NewRat(1, 200), "0.005"
	if a.SoldPart != nil && a.Record.SoldOn.Year == b.y.Year {
		sold := new(big.Rat).Quo(a.SoldPart, big.NewRat(100, 1))
		ofYear, near, text = wb.Number(sold, 4), big.NewRat(1, 100), "0.01"
		value, formula = new(big.Rat).Mul(value, sold), formula+"*"+s.Here("Part of the year", row)
	}
	far := new(big.Rat).Sub(units(a.Now.Rat()), value)
	return wb.Number(share, 4), ofYear, wb.Exact(value).By(formula), flagged(far.Abs(far).Cmp(near) > 0).By("IF(ABS(" +
		s.Here("This year", row) + "-" + s.Here("Unrounded", row) + ")>" + text + ",1,0)")
}
