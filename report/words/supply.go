package words

import (
	"cmp"
	"fmt"
	"math/big"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/money"
)

// supplyShare is a share's arithmetic: the piece's part of the whole, as a
// percentage of the cost, and the cents.
func supplyShare(p ledger.Posting) string {
	draw, l, when := p.Of.Draw, p.Of.Lines[p.Line], Months(p.Of.Span())
	var what string
	if p.How.Weight == nil {
		what = fmt.Sprintf("%s measured of %s drawn in %s", inUnits(p.How.Quantity, draw), measuredOut(draw.Containers, draw),
			when)
	} else {
		what = fmt.Sprintf("%s of %s %s in %s", weight(p.How.Weight, draw), weight(draw.Weight, draw),
			sharedBy(draw.By, draw.Unit), when)
	}
	if s := sharing(p); s != "" {
		what += ", " + s
	}
	percent, gives := percentOf(p)
	return fmt.Sprintf("%s, %s %% of %s = %s%s", what, percent, p.Of.Total.Grouped(), l.Cents.Grouped(),
		leftover(l, ways(p, gives)...))
}

// supplyPart is a share's part of the whole: 16.52 of 609.33 sq ft.
func supplyPart(p ledger.Posting) string {
	draw := p.Of.Draw
	if p.How.Weight == nil {
		return fmt.Sprintf("%s measured of %s", inUnits(p.How.Quantity, draw), measuredOut(draw.Containers, draw))
	}
	text := fmt.Sprintf("%s of %s %s", weight(p.How.Weight, draw), weight(draw.Weight, draw),
		cmp.Or(draw.Unit, sharedBy(draw.By, "")))
	if s := sharing(p); s != "" {
		text += ", " + s
	}
	return text
}

// sharing tells how much the weights share, where some was measured or lost.
func sharing(p ledger.Posting) string {
	draw := p.Of.Draw
	if p.How.Weight == nil || draw.Rest.Cmp(draw.Containers) == 0 {
		return ""
	}
	return fmt.Sprintf("sharing %s of the %s drawn", inUnits(draw.Rest, draw), measuredOut(draw.Containers, draw))
}

// percentDecimals are the most decimals that a percentage is printed with.
const percentDecimals = 6

// percentOf is a share's percentage of what was drawn, to two decimals or to as
// many as a calculator needs to come to the share from it; and what it comes to.
func percentOf(p ledger.Posting) (string, money.Cents) {
	draw, hundred := p.Of.Draw, big.NewRat(100, 1)
	if draw.Containers.Sign() <= 0 {
		return "0.00", 0
	}
	exact := calculated(p.Of.Total, p.How.Quantity, draw.Containers)
	part, whole := p.How.Quantity, draw.Containers
	num, denom := new(big.Int).Mul(part.Num(), whole.Denom()), new(big.Int).Mul(part.Denom(), whole.Num())
	percent := new(big.Rat).SetFrac(num.Mul(num, hundred.Num()), denom)
	for n := 2; ; n++ {
		gives := calculated(p.Of.Total, money.RoundTo(percent, n), hundred)
		if gives == exact || n == percentDecimals {
			return money.Fixed(percent, n), gives
		}
	}
}

// ways is what a calculator gives for a share from its printed parts: by the
// percentage, or else exactly, and by the areas, hours or pieces where they
// alone share the cost.
func ways(p ledger.Posting, byPercent money.Cents) []money.Cents {
	draw := p.Of.Draw
	if p.How.Weight == nil || draw.Rest.Cmp(draw.Containers) != 0 {
		return []money.Cents{byPercent}
	}
	return []money.Cents{byPercent, calculated(p.Of.Total, number(weight(p.How.Weight, draw)),
		number(weight(draw.Weight, draw)))}
}

func lost(p ledger.Posting) Arithmetic {
	draw, l := p.Of.Draw, p.Of.Lines[p.Line]
	return Arithmetic{fmt.Sprintf("%s discarded, or used with no piece to charge it to, of %s gone in %s: of ",
		measuredOut(p.How.Quantity, draw), measuredOut(draw.Containers, draw), Months(p.Of.Span())),
		p.Of.Total.Grouped(), " = " + l.Cents.Grouped() +
			leftover(l, calculated(p.Of.Total, p.How.Quantity, draw.Containers))}
}

// chargedAgain tells what a count, or a supply bought again, moves on a piece.
func chargedAgain(d ledger.Derivation) string {
	by, now := "by the count", d.Amount(ledger.AmountCounted)
	if d.Method == ledger.Reestimated {
		by, now = "bought again, so by the fresh estimate", d.Amount(ledger.AmountReestimated)
	}
	return fmt.Sprintf("%s its uses before this month cost %s, %s was charged for them", by, now.Grouped(),
		d.Amount(ledger.AmountBefore).Grouped())
}

// containers prints an amount in containers of a supply: `0.285 × 1 qt`.
func containers(amount *big.Rat, container string) string {
	return money.AtMost(amount, 4) + " × " + container
}

// measuredOut prints an amount in the unit that a supply is sold in, so that a
// pocket calculator comes to the same: `2 fl oz` of 16, not 0.125 of a bottle.
func measuredOut(amount *big.Rat, d ledger.Draw) string {
	unit := soldBy(d)
	if unit == "" {
		return containers(amount, d.Container)
	}
	return inUnits(amount, d) + " " + unit
}

// soldBy is the unit that a supply is sold in; blank where its container says none.
func soldBy(d ledger.Draw) string {
	if d.Size == nil || d.Size.Sign() <= 0 {
		return ""
	}
	return strings.TrimLeft(d.Container, "0123456789.,/ ½¼¾")
}

// inUnits is measuredOut without the unit's name. What four decimals cannot
// tell is a fraction where it is a plain one: a teaspoon is 1/6 fl oz.
func inUnits(amount *big.Rat, d ledger.Draw) string {
	if d.Size != nil && d.Size.Sign() > 0 {
		amount = new(big.Rat).Mul(amount, d.Size)
	}
	text := money.AtMost(amount, 4)
	if shown, ok := new(big.Rat).SetString(text); ok && shown.Cmp(amount) == 0 {
		return text
	}
	if amount.Denom().Cmp(big.NewInt(100)) < 0 && amount.Num().CmpAbs(amount.Denom()) < 0 {
		return amount.String()
	}
	return money.AtMost(amount, 6)
}

// weight prints areas to 0.01, hours and pieces as they are.
func weight(w *big.Rat, d ledger.Draw) string {
	if d.By == ledger.ByHours || d.By == ledger.ByPieces {
		return money.AtMost(w, 4)
	}
	return money.Fixed(w, 2)
}

// ShortMonth is a month's name in three letters, with its year.
func ShortMonth(m calendar.Month) string {
	return fmt.Sprintf("%s %d", MonthOfYear(m), m.Year())
}

// MonthOfYear is a month in three letters, without its year.
func MonthOfYear(m calendar.Month) string { return m.Of().String()[:3] }

// ShareUnit is what the weights of a shared supply are, for a table.
func ShareUnit(s *ledger.Shared) string {
	switch s.By {
	case ledger.ByBench:
		return s.Unit + " coated in all"
	case ledger.ByArea:
		return s.Unit + " coated"
	case ledger.ByPieces:
		return "pieces"
	case ledger.ByContainers:
		if unit := soldBy(s.Draw); unit != "" {
			return unit
		}
		return "× " + s.Draw.Container
	}
	return string(s.By)
}

// ShareWeight is a weight of a shared supply, with thousands parted.
func ShareWeight(w *big.Rat, s *ledger.Shared) string { return Thousands(shareWeight(w, s)) }

func shareWeight(w *big.Rat, s *ledger.Shared) string {
	if s.By == ledger.ByContainers {
		return inUnits(w, s.Draw)
	}
	return weight(w, ledger.Draw{By: s.By})
}

// ShareGives is what a pocket calculator gives for a part of a shared supply
// from its total and the weights that ShareWeight prints: in cents, a half away
// from zero; zero where the whole is.
func ShareGives(part, whole *big.Rat, s *ledger.Shared) money.Cents {
	return calculated(s.Total, number(shareWeight(part, s)), number(shareWeight(whole, s)))
}

// number is the value of a number as printed, which may be rounded: 0.3333, 1/6.
func number(printed string) *big.Rat {
	x, ok := new(big.Rat).SetString(printed)
	if !ok {
		return new(big.Rat)
	}
	return x
}
