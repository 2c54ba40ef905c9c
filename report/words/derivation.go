// Package words makes the text of the reports: what a posting is for and how
// its cents came about, as one reads it on pages, in workbooks, on the
// terminal and in JSON. It reads fields only; nothing reads its text back.
package words

import (
	"fmt"
	"math/big"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/money"
)

// How says how a posting's cents came about, for a pocket calculator, in one
// line: money to the cent, quantities to four decimals. The owner's words are
// in it whole.
func How(p ledger.Posting) string {
	if p.Of == nil || p.Line < 0 || p.Line >= len(p.Of.Lines) {
		return derived(p.How, p)
	}
	switch p.How.Method {
	case ledger.UsedSupply:
		return p.Supply + ", " + p.Of.Draw.Container + ": " + supplyShare(p)
	case ledger.LostSupply:
		return lost(p).String()
	case ledger.Overhead:
		return overhead(p)
	}
	return Total(p.Of) + afterTotal(p)
}

// afterTotal is what How says after naming the total.
func afterTotal(p ledger.Posting) string {
	l, over := p.Of.Lines[p.Line], fmt.Sprintf("over %d pieces", len(p.Of.Lines))
	switch {
	case p.How.Method == ledger.OwnPrice:
		return lotShare(p) + ownPrice(p.How, true)
	case p.Of.Reason == ledger.ReasonTrip || p.Of.Reason == ledger.ReasonExpense:
		return fmt.Sprintf(" = %s, equally %s = %s%s", p.Of.Total.Grouped(), over, l.Cents.Grouped(),
			leftover(l, partOf(p.Of, l, 2)))
	}
	return fmt.Sprintf(": %s %s %s = %s%s", p.Of.Total.Grouped(), over, SharedBy(p.Of), l.Cents.Grouped(), leftover(l))
}

// Arithmetic is how cents came about, with the words that name the total they are
// a part of, or it, apart: Whole, which may lead to it; blank of no part.
type Arithmetic struct{ Before, Whole, After string }

func (a Arithmetic) String() string { return a.Before + a.Whole + a.After }

// OfWhole is How for where the supply is named beside it, the shared total and what it was shared by
// stand elsewhere, and a link leads there: the arithmetic alone.
func OfWhole(p ledger.Posting) Arithmetic {
	switch {
	case p.How.Method == ledger.Recounted:
		return Arithmetic{Whole: "Counted", After: fmt.Sprintf(" %s, charged %s",
			p.How.Amount(ledger.AmountCounted).Grouped(),
			p.How.Amount(ledger.AmountBefore).Grouped())}
	case p.How.Method == ledger.Reestimated:
		return Arithmetic{Whole: "Estimated again", After: fmt.Sprintf(" %s, charged before %s",
			p.How.Amount(ledger.AmountReestimated).Grouped(), p.How.Amount(ledger.AmountBefore).Grouped())}
	case p.Of == nil || p.Line < 0 || p.Line >= len(p.Of.Lines):
		return Arithmetic{Before: Capital(How(p))}
	}
	of, l := p.Of, p.Of.Lines[p.Line]
	switch p.How.Method {
	case ledger.UsedSupply:
		exact := calculated(of.Total, p.How.Quantity, of.Draw.Containers)
		return Arithmetic{Capital(supplyPart(p)) + ", of ", of.Total.Grouped(), leftover(l, ways(p, exact)...)}
	case ledger.Overhead:
		return Arithmetic{fmt.Sprintf("%s of %s %s, of ", money.AtMost(l.Weight, 4), money.AtMost(of.Weight(), 4),
			SharedBy(of)),
			of.Total.Grouped(), leftover(l, partOf(of, l, 4))}
	}
	return lost(p)
}

// Total says what was shared: a lot, a part, a fee, a trip; nothing of a
// supply, whose name stands in Shared.
func Total(s *ledger.Shared) string {
	switch s.How.Method {
	case "":
		return ""
	case ledger.Overhead:
		return "shop costs of " + s.Month.Name()
	}
	return derived(s.How, ledger.Posting{Month: s.Month, Supply: s.Supply})
}

// SharedBy says what the weights of a shared total are.
func SharedBy(s *ledger.Shared) string { return sharedBy(s.By, s.Unit) }

// SharedTitle heads the parts of a shared total.
func SharedTitle(s *ledger.Shared) string {
	switch s.By {
	case ledger.ByAsking, ledger.ByWorth, ledger.OverAreas, ledger.Equally:
		return "Shared " + SharedBy(s)
	}
	return "Shared by " + SharedBy(s)
}

func sharedBy(by ledger.ShareBy, unit string) string {
	switch by {
	case ledger.ByAsking, ledger.ByWorth:
		return "by " + string(by)
	case ledger.OverAreas:
		return "by area"
	case ledger.Equally:
		return "equally"
	case ledger.ByContainers:
		return "containers of " + unit
	case ledger.ByArea:
		return unit + " coated"
	case ledger.ByBench:
		return unit + " coated in all"
	case ledger.ByPieces:
		return "pieces worked on"
	}
	return string(by)
}

// derived says how an amount that is no share came about; of a share, its total.
func derived(d ledger.Derivation, p ledger.Posting) string {
	switch d.Method {
	case ledger.Typed, ledger.PaidBack, ledger.FeeWorkedOut, ledger.FeeLeast:
		return typed(d, p)
	case ledger.OwnPrice:
		return ownPrice(d, false)
	case ledger.LotPrice:
		return "lot " + d.Words
	case ledger.MovedTo, ledger.MovedFrom:
		return d.Words + " " + string(d.Method) + " " + d.Other
	case ledger.Driven:
		return driven(d)
	case ledger.AtOnce:
		return d.Words + ", written off at once"
	case ledger.OfTable, ledger.RestOfTable, ledger.FirstYear:
		return writtenOff(d)
	case ledger.BookCost:
		return "its book cost at the end of " + p.Month.Name()
	case ledger.BookCostBefore:
		return "its book cost up to the month before"
	case ledger.CostAfter:
		return "cost of the month, after the piece left"
	case ledger.Overhead:
		return "no piece was worked on this month, so its shop costs stay with none"
	case ledger.Recounted, ledger.Reestimated:
		return p.Supply + ": " + chargedAgain(d)
	case ledger.Corrected:
		return "what the records now give for the closed months of " + d.Quantity.RatString() + ", less what was " +
			"closed for them"
	}
	return onShelf(d)
}

// onShelf is derived for what moves on the shelf.
func onShelf(d ledger.Derivation) string {
	switch d.Method {
	case ledger.StockedBefore:
		if len(d.Amounts) == 0 {
			return "there when the books began"
		}
		return fmt.Sprintf("there when the books began; %s was already deducted, so it comes in at 0.00",
			d.Amount(ledger.AmountDeducted))
	case ledger.BoughtSupply:
		words := fmt.Sprintf("%s, cost %s", containers(d.Quantity, d.Unit), d.Amount(ledger.AmountCost).Grouped())
		if tax := d.Amount(ledger.AmountTax); tax != 0 {
			words += " + tax " + tax.Grouped()
		}
		return words
	case ledger.SentBack:
		return fmt.Sprintf("%s taken back for %s; the newest on the shelf had cost %s", containers(d.Quantity, d.Unit),
			d.Amount(ledger.AmountRefund).Grouped(), d.Amount(ledger.AmountHeld).Grouped())
	case ledger.SentBackLoss:
		return fmt.Sprintf("cost of what was taken back less the %s that came for it",
			d.Amount(ledger.AmountRefund).Grouped())
	case ledger.CountedAbove:
		return fmt.Sprintf("counted %s more than the records can hold; put back on the newest at cost",
			containers(d.Quantity, d.Unit))
	}
	return d.Words
}

// typed says what an amount of a record is, and a fee's arithmetic; a fixed
// part of nothing is left out.
func typed(d ledger.Derivation, p ledger.Posting) string {
	name := string(d.Field)
	switch {
	case d.Field == ledger.FieldReceived:
		return "received for the piece, " + p.Group
	case d.Field == ledger.FieldTaxPaid:
		return "sales tax for " + d.Words
	case d.Field == ledger.FieldAllowance:
		return "collection allowance kept for " + d.Words
	case d.Method == ledger.FeeLeast:
		return fmt.Sprintf("%s, worked out: the least is %s", name, d.Amount(ledger.AmountLeast).Grouped())
	case d.Method == ledger.FeeWorkedOut:
		words := fmt.Sprintf("%s, worked out: %s × %s %%", name, d.Amount(ledger.AmountBase).Grouped(),
			money.AtMost(d.Rate, 4))
		if fixed := d.Amount(ledger.AmountFixed); fixed != 0 {
			words += " + " + fixed.Grouped()
		}
		exact := percentOfBase(d, ledger.AmountBase)
		return words + halfCent(exact.Add(exact, d.Amount(ledger.AmountFixed).Rat()))
	case d.Method == ledger.PaidBack:
		return map[ledger.Field]string{ledger.FieldPrice: "price given back", ledger.FieldDelivery: "delivery given back",
			ledger.FieldSalesTax: "sales tax given back",
			ledger.FieldFee:      "fee given back by the channel", ledger.FieldCardFee: "card fee given back"}[d.Field]
	case name != "":
		return name
	}
	return d.Words
}

// driven is a trip's arithmetic after its purpose.
func driven(d ledger.Derivation) string {
	words := fmt.Sprintf("%s %s × %s", money.AtMost(d.Quantity, 4), d.Unit, money.AtMost(d.Rate, 4))
	if tolls := d.Amount(ledger.AmountTolls); tolls != 0 {
		words += " + tolls " + tolls.Grouped()
	}
	cents := new(big.Rat).Mul(d.Quantity, d.Rate)
	words += halfCent(cents.Mul(cents, big.NewRat(100, 1)))
	if d.Words != "" {
		words = d.Words + ": " + words
	}
	return words
}

// writtenOff is a year's write-off of equipment, for a pocket calculator.
func writtenOff(d ledger.Derivation) string {
	cost := d.Amount(ledger.AmountCost)
	if d.Method == ledger.FirstYear {
		return fmt.Sprintf("%s: %s, the whole cost as the special first-year allowance", d.Words, cost.Grouped())
	}
	year := fmt.Sprintf("year %s of %s of the %s-year table", d.Quantity.RatString(), d.Whole.RatString(), d.Unit) +
		After(", ", d.Table)
	sold := ""
	if d.Part != nil {
		sold = " × " + money.AtMost(d.Part, 4) + " % for the part of the year to its sale"
	}
	if d.Method == ledger.RestOfTable {
		return fmt.Sprintf("%s: what is left of %s%s, %s", d.Words, cost.Grouped(), sold, year)
	}
	if d.Part == nil {
		sold = halfCent(percentOfBase(d, ledger.AmountCost))
	}
	return fmt.Sprintf("%s: %s × %s %%, %s%s", d.Words, cost.Grouped(), money.AtMost(d.Rate, 2), year, sold)
}

// percentOfBase is a Derivation's rate in percent of one of its amounts, in cents,
// not rounded.
func percentOfBase(d ledger.Derivation, base ledger.AmountName) *big.Rat {
	x := new(big.Rat).Mul(d.Amount(base).Rat(), d.Rate)
	return x.Quo(x, big.NewRat(100, 1))
}

// halfCent says which way an amount was rounded that is an exact half cent: to
// the even one, as all are, which a calculator may not do. Nothing for any other.
func halfCent(cents *big.Rat) string {
	if cents.Denom().Cmp(big.NewInt(2)) != 0 {
		return ""
	}
	if money.Round(cents).Rat().Cmp(cents) > 0 {
		return ", the half cent rounded up"
	}
	return ", the half cent rounded down"
}

// ownPrice tells the piece's own price, tax and pickup as a sum, after its
// share of a lot where it has one.
func ownPrice(d ledger.Derivation, ofLot bool) string {
	words := ""
	for _, a := range d.Amounts {
		if words != "" || ofLot {
			words += " + "
		}
		words += string(a.Name) + " " + a.Cents.Grouped()
	}
	if words == "" && !ofLot {
		return string(d.Came) + ", nothing paid"
	}
	return words
}

func lotShare(p ledger.Posting) string {
	of, l := p.Of, p.Of.Lines[p.Line]
	if of.By != ledger.ByWorth {
		return fmt.Sprintf(", %s shared equally over %d pieces = %s%s", of.Total.Grouped(), len(of.Lines), l.Cents.Grouped(),
			leftover(l, partOf(of, l, 2)))
	}
	return fmt.Sprintf(", %s shared by worth: %s of %s = %s%s", of.Total.Grouped(),
		inMoney(l.Weight), inMoney(of.Weight()), l.Cents.Grouped(), leftover(l, partOf(of, l, 2)))
}

// inMoney is a weight that is money, in the currency's units.
func inMoney(w *big.Rat) string {
	return money.Round(new(big.Rat).Mul(w, big.NewRat(100, 1))).Grouped()
}

func overhead(p ledger.Posting) string {
	of, l := p.Of, p.Of.Lines[p.Line]
	return fmt.Sprintf("%s of %s %s in %s, of shop costs %s = %s%s", money.AtMost(l.Weight, 4), money.AtMost(of.Weight(),
		4), SharedBy(of),
		of.Month.Name(), of.Total.Grouped(), l.Cents.Grouped(), leftover(l, partOf(of, l, 4)))
}

// leftover tells, after a comma, the cent of a share that a pocket calculator
// would not give from the parts that are printed, which calculated are the
// results of; nothing where there is none. Without printed parts it is the cent
// that adding up took.
func leftover(l ledger.SharedLine, calculated ...money.Cents) string {
	off := l.Off
	for _, c := range calculated {
		if off = l.Cents - c; off != 0 {
			break
		}
	}
	if off == 0 {
		return ""
	}
	return ", " + Signed(off) + " so that the shares add up"
}

// Signed is an amount with its sign, a plus too: +0.01.
func Signed(c money.Cents) string {
	if c > 0 {
		return "+" + c.Grouped()
	}
	return c.Grouped()
}

// calculated is a part of a total as a pocket calculator gives it: in cents, a
// half away from zero.
func calculated(total money.Cents, part, whole *big.Rat) money.Cents {
	if whole.Sign() == 0 {
		return 0
	}
	// As whole numbers, since a fraction would be brought to its lowest terms at every step.
	num := big.NewInt(int64(total))
	num.Mul(num, part.Num()).Mul(num, whole.Denom())
	denom := new(big.Int).Mul(part.Denom(), whole.Num())
	sign := money.Cents(num.Sign() * denom.Sign())
	num.Abs(num).Lsh(num, 1).Add(num, denom.Abs(denom))
	return sign * money.Cents(num.Quo(num, denom.Lsh(denom, 1)).Int64())
}

// partOf is calculated for a line's weight as printed to so many decimals.
func partOf(of *ledger.Shared, l ledger.SharedLine, decimals int) money.Cents {
	return calculated(of.Total, money.RoundTo(l.Weight, decimals), money.RoundTo(of.Weight(), decimals))
}

// Months names the months of a span: March 2026; October to December 2025.
func Months(first, last calendar.Month) string {
	switch {
	case first == last:
		return last.Name()
	case first.Year() == last.Year():
		return fmt.Sprintf("%s to %s", first.Of(), last.Name())
	}
	return fmt.Sprintf("%s to %s", first.Name(), last.Name())
}
