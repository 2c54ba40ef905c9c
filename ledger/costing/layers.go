package costing

import (
	"math/big"

	"piecebook/ledger"
	"piecebook/ledger/money"
)

var zero = new(big.Rat)

func add(a, b *big.Rat) *big.Rat { return new(big.Rat).Add(a, b) }
func sub(a, b *big.Rat) *big.Rat { return new(big.Rat).Sub(a, b) }
func mul(a, b *big.Rat) *big.Rat { return new(big.Rat).Mul(a, b) }
func quo(a, b *big.Rat) *big.Rat { return new(big.Rat).Quo(a, b) }

// kept is a fraction in no more room than it takes, of those that are kept by the
// thousand: what it was worked out in has room for more.
func kept(x *big.Rat) *big.Rat { return new(big.Rat).Set(x) }

func lesser(a, b *big.Rat) *big.Rat {
	if a.Cmp(b) < 0 {
		return a
	}
	return b
}

func sum(rats []*big.Rat) *big.Rat {
	total := new(big.Rat)
	for _, r := range rats {
		total.Add(total, r)
	}
	return total
}

// left is what the layers still hold, in containers.
func left(layers []*Layer) *big.Rat {
	total := new(big.Rat)
	for _, l := range layers {
		if !l.empty() {
			total.Add(total, l.Amount)
			total.Sub(total, l.Drawn)
		}
	}
	return total
}

// empty says at a glance that nothing is left of a layer: draw makes the two
// one fraction then. Another layer may be empty too.
func (l Layer) empty() bool { return l.Drawn == l.Amount }

// drawnCents is what drawing so much of a layer has cost: round(cost × drawn
// ÷ amount), so that an empty layer has cost exactly what was paid.
func (l Layer) drawnCents(drawn *big.Rat) money.Cents {
	if l.Amount.Sign() == 0 {
		return l.Cents
	}
	return money.Round(quo(mul(l.Cents.Rat(), drawn), l.Amount))
}

// drawnTo is the layer with so much of it drawn.
func (l Layer) drawnTo(drawn *big.Rat, cents money.Cents) *Layer {
	l.Drawn, l.DrawnCents = drawn, cents
	return &l
}

// draw takes an amount from the oldest layers and returns what it cost, and what
// came of which. It takes no more than there is.
func draw(layers []*Layer, amount *big.Rat) (money.Cents, []ledger.Drawn) {
	var taken []ledger.Drawn
	var cost money.Cents
	need := amount
	for i := range layers {
		l := layers[i]
		if l.empty() {
			continue
		}
		there := sub(l.Amount, l.Drawn)
		take := lesser(need, there)
		if take.Sign() <= 0 {
			continue
		}
		drawn := l.Amount
		if take != there {
			drawn = add(l.Drawn, take)
		}
		cents := l.drawnCents(drawn)
		cost += cents - l.DrawnCents
		taken = append(taken, ledger.Drawn{Amount: take, Cents: cents - l.DrawnCents, Of: l.Amount, Cost: l.Cents,
			On: l.On, At: l.At})
		layers[i] = l.drawnTo(drawn, cents)
		need = sub(need, take)
	}
	return cost, taken
}

// undraw puts an amount back on the newest drawn layers by the same rounding.
// It returns what they are worth more, and the amount no layer could take back.
func undraw(layers []*Layer, amount *big.Rat) (money.Cents, *big.Rat) {
	var gain money.Cents
	rest := amount
	for i := len(layers) - 1; i >= 0 && rest.Sign() > 0; i-- {
		l := layers[i]
		put := lesser(rest, l.Drawn)
		if put.Sign() <= 0 {
			continue
		}
		drawn := sub(l.Drawn, put)
		cents := l.drawnCents(drawn)
		gain += l.DrawnCents - cents
		layers[i] = l.drawnTo(drawn, cents)
		rest = sub(rest, put)
	}
	return gain, rest
}

// layerPart is what a take-back took of one layer.
type layerPart struct {
	layer  int // its place among the layers
	amount *big.Rat
	cents  money.Cents
}

// takeBack takes an amount off the newest layers for good: each loses
// round(its cost left × amount ÷ its amount left) and shrinks by both. It
// returns what it took of each and the amount that was not there.
func takeBack(layers []*Layer, amount *big.Rat) ([]layerPart, *big.Rat) {
	var parts []layerPart
	rest := amount
	for i := len(layers) - 1; i >= 0 && rest.Sign() > 0; i-- {
		there := sub(layers[i].Amount, layers[i].Drawn)
		take := lesser(rest, there)
		if take.Sign() <= 0 {
			continue
		}
		cents := money.Round(quo(mul((layers[i].Cents-layers[i].DrawnCents).Rat(), take), there))
		parts = append(parts, layerPart{i, take, cents})
		rest = sub(rest, take)
	}
	shrink(layers, parts)
	return parts, rest
}

// shrink takes parts off their layers, amount and cost.
func shrink(layers []*Layer, parts []layerPart) {
	for _, p := range parts {
		l := *layers[p.layer]
		l.Amount = sub(l.Amount, p.amount)
		l.Cents -= p.cents
		layers[p.layer] = &l
	}
}
