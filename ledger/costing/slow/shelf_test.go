package slow

import (
	"math/big"
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
)

// A second way through the rules of the shelf, slow and straight from the
// contract's text: one supply at a time, every month's uses gathered again from
// the records. It has nothing of package costing in it.

// slowLayer is a purchase line or opening on the shelf.
type slowLayer struct {
	amount, drawn *big.Rat
	cost, gone    int64 // cents; gone: what drawing has cost so far
}

// slowUse is one line that shares a supply's cost: day 0 is a month's weight.
type slowUse struct {
	month    calendar.Month
	day      int
	piece    string
	measured bool
	weight   *big.Rat
}

// slowMonth is what a supply's month comes to.
type slowMonth struct {
	into    map[string]int64 // cents put into pieces
	lost    int64
	closing int64
	left    *big.Rat
	basis   ledger.Basis
}

// slowShelf goes through the months of one supply.
type slowShelf struct {
	uses     map[calendar.Month][]slowUse // gathered so far
	b        *ledger.Books
	s        *ledger.Supply
	opened   calendar.Month // the open span's first month
	start    []slowLayer    // when it opened, with what was bought and taken back since
	layers   []slowLayer    // by the estimates
	had      *big.Rat       // what the span opened with
	charged  map[string]int64
	weights  *big.Rat // of the counted spans, and the containers they took
	rests    *big.Rat
	out      slowMonth
	shortage bool // more was taken back than the estimates leave
}

func rat(n int64) *big.Rat { return new(big.Rat).SetInt64(n) }

func plus(a, b *big.Rat) *big.Rat   { return new(big.Rat).Add(a, b) }
func minus(a, b *big.Rat) *big.Rat  { return new(big.Rat).Sub(a, b) }
func times(a, b *big.Rat) *big.Rat  { return new(big.Rat).Mul(a, b) }
func divide(a, b *big.Rat) *big.Rat { return new(big.Rat).Quo(a, b) }

func least(a, b *big.Rat) *big.Rat {
	if a.Cmp(b) <= 0 {
		return a
	}
	return b
}

// halfEven rounds to a whole number, halves to the even one.
func halfEven(x *big.Rat) int64 {
	floor := new(big.Int).Div(x.Num(), x.Denom()) // Euclidean: down for a positive denominator
	rest := minus(x, new(big.Rat).SetInt(floor))
	n := floor.Int64()
	switch c := rest.Cmp(big.NewRat(1, 2)); {
	case c > 0, c == 0 && n%2 != 0:
		return n + 1
	}
	return n
}

// apportion is the largest remainder method, ties to the earlier line.
func apportion(total int64, weights []*big.Rat) []int64 {
	sign := int64(1)
	if total < 0 {
		sign, total = -1, -total
	}
	all := rat(0)
	for _, w := range weights {
		all = plus(all, w)
	}
	if all.Sign() == 0 {
		for i := range weights {
			weights[i] = rat(1)
		}
		all = rat(int64(len(weights)))
	}
	out := make([]int64, len(weights))
	rests := make([]*big.Rat, len(weights))
	left := total
	for i, w := range weights {
		exact := divide(times(rat(total), w), all)
		out[i] = new(big.Int).Div(exact.Num(), exact.Denom()).Int64()
		rests[i] = minus(exact, rat(out[i]))
		left -= out[i]
	}
	for ; left > 0; left-- {
		best := -1
		for i := range rests {
			if weights[i].Sign() > 0 && (best < 0 || rests[i].Cmp(rests[best]) > 0) {
				best = i
			}
		}
		out[best]++
		rests[best] = rat(-1)
	}
	for i := range out {
		out[i] *= sign
	}
	return out
}

// remains is what layers hold.
func remains(layers []slowLayer) *big.Rat {
	sum := rat(0)
	for _, l := range layers {
		sum = plus(sum, minus(l.amount, l.drawn))
	}
	return sum
}

// drawFrom takes an amount from the oldest layers and says what it cost.
func drawFrom(layers []slowLayer, amount *big.Rat) int64 {
	var cost int64
	for i := range layers {
		l := &layers[i]
		take := least(amount, minus(l.amount, l.drawn))
		if take.Sign() <= 0 {
			continue
		}
		amount = minus(amount, take)
		l.drawn = plus(l.drawn, take)
		now := halfEven(divide(times(rat(l.cost), l.drawn), l.amount))
		cost += now - l.gone
		l.gone = now
	}
	return cost
}

// piecesOf is a record's pieces, each once, in order.
func piecesOf(ids []string) []string {
	out := slices.Clone(ids)
	slices.Sort(out)
	return slices.Compact(out)
}

// areasOf is the pieces' areas, false where one has none.
func areasOf(b *ledger.Books, ids []string) ([]*big.Rat, bool) {
	var out []*big.Rat
	for _, id := range ids {
		at := slices.IndexFunc(b.Pieces, func(p ledger.Piece) bool { return p.ID == id })
		if at < 0 || b.Pieces[at].Area == nil {
			return nil, false
		}
		out = append(out, b.Pieces[at].Area)
	}
	return out, true
}

// parts splits a quantity by areas where all have one, else equally.
func parts(b *ledger.Books, total *big.Rat, ids []string) []*big.Rat {
	areas, all := areasOf(b, ids)
	sum := rat(0)
	for _, a := range areas {
		sum = plus(sum, a)
	}
	out := make([]*big.Rat, len(ids))
	for i := range ids {
		out[i] = divide(total, rat(int64(len(ids))))
		if all && sum.Sign() > 0 {
			out[i] = divide(times(total, areas[i]), sum)
		}
	}
	return out
}

// coatedBy is, for each of a use's pieces, area × coats.
func coatedBy(b *ledger.Books, u ledger.Use, ids []string) []*big.Rat {
	areas, all := areasOf(b, ids)
	if u.Area != nil {
		areas = parts(b, u.Area, ids)
	} else if !all {
		panic("a use without an area")
	}
	out := make([]*big.Rat, len(ids))
	for i := range ids {
		out[i] = times(areas[i], u.Coats)
	}
	return out
}

// usesIn is a month's lines of a supply: its measured uses, and what the others
// share by.
func usesIn(b *ledger.Books, s *ledger.Supply, m calendar.Month) []slowUse {
	var out []slowUse
	byMonth := map[string]*big.Rat{}
	gain := func(id string, by *big.Rat) {
		if byMonth[id] == nil {
			byMonth[id] = rat(0)
		}
		byMonth[id] = plus(byMonth[id], by)
	}
	for _, u := range b.Uses {
		if u.On.InMonth() != m {
			continue
		}
		ids := piecesOf(u.Pieces)
		coated := coatedBy(b, u, ids)
		for i, id := range ids {
			switch s.ShareBy {
			case ledger.ByBench:
				gain(id, coated[i])
			case ledger.ByPieces:
				byMonth[id] = rat(1)
			}
			if u.Supply != s.Name {
				continue
			}
			if u.Amount != nil {
				out = append(out, slowUse{m, u.On.Day, id, true, parts(b, u.Amount, ids)[i]})
			} else if s.ShareBy == ledger.ByArea {
				out = append(out, slowUse{m, u.On.Day, id, false, coated[i]})
			}
		}
	}
	for _, h := range b.Hours {
		ids := piecesOf(h.Pieces)
		if h.On.InMonth() != m || len(ids) == 0 {
			continue
		}
		for i, hours := range parts(b, h.Hours, ids) {
			switch s.ShareBy {
			case ledger.ByHours:
				gain(ids[i], hours)
			case ledger.ByPieces:
				byMonth[ids[i]] = rat(1)
			}
		}
	}
	for id, w := range byMonth {
		out = append(out, slowUse{m, 0, id, false, w})
	}
	return out
}

// usesIn remembers what it has gathered.
func (w *slowShelf) usesIn(m calendar.Month) []slowUse {
	if _, known := w.uses[m]; !known {
		w.uses[m] = usesIn(w.b, w.s, m)
	}
	return w.uses[m]
}

// sharedCost shares the cost of what was drawn over lines and, last, a loss: measured
// ones by their amount, the others by their part of the rest.
func sharedCost(cost int64, lines []slowUse, rest, lost *big.Rat) (into []int64, kept []slowUse, loss int64) {
	all := rat(0)
	for _, l := range lines {
		if !l.measured {
			all = plus(all, l.weight)
		}
	}
	for _, l := range lines {
		if l.measured {
			kept = append(kept, l)
		} else if rest.Sign() > 0 && all.Sign() > 0 {
			l.weight = divide(times(rest, l.weight), all)
			kept = append(kept, l)
		}
	}
	slices.SortStableFunc(kept, func(x, y slowUse) int {
		switch {
		case x.month != y.month:
			return int(x.month - y.month)
		case x.day != y.day:
			return x.day - y.day
		case x.piece != y.piece:
			return strings.Compare(x.piece, y.piece)
		}
		return x.weight.Cmp(y.weight)
	})
	var weights []*big.Rat
	for _, l := range kept {
		weights = append(weights, l.weight)
	}
	if lost.Sign() > 0 {
		weights = append(weights, lost)
	}
	if len(weights) == 0 {
		return nil, nil, 0
	}
	into = apportion(cost, weights)
	if lost.Sign() > 0 {
		return into[:len(kept)], kept, into[len(kept)]
	}
	return into, kept, 0
}
