package bookgen

import (
	"math/big"
	"slices"
	"strings"

	"piecebook/ledger/calendar"
	"piecebook/ledger/money"
)

// chooseSets puts the pieces of two sets together: one sold whole, one of which
// a piece may come back. They must all be there some time before the end.
func (m *maker) chooseSets() {
	for _, name := range []string{"Bedroom set", "S2"} {
		var of []*piece
		for _, p := range m.pieces {
			if p.set == "" && !p.alone && p.how != "client" && len(of) < 3 && m.chance(40) {
				of = append(of, p)
			}
		}
		if len(of) < 2 {
			continue
		}
		kind := m.IntN(3)
		for _, p := range of {
			p.set = name
			switch kind { // shared by asking, by worth, equally
			case 0:
				p.asking = m.cents(50, 500)
			case 1:
				p.asking, p.worth = 0, m.cents(20, 300)
			case 2:
				p.asking, p.worth = 0, money.Cents(0)
			}
			// A lot shared by worth needs every one; equal sharing is kept.
			if p.lot == "L1" && p.worth == 0 {
				p.worth = m.cents(20, 300)
			}
		}
	}
}

// sellSets sells each set in one line, then gives some of it back.
func (m *maker) sellSets() {
	sets := map[string][]*piece{}
	for _, p := range m.pieces {
		if p.set != "" {
			sets[p.set] = append(sets[p.set], p)
		}
	}
	for _, name := range []string{"Bedroom set", "S2"} {
		of := sets[name]
		if len(of) == 0 {
			continue
		}
		slices.SortFunc(of, func(a, b *piece) int { return strings.Compare(a.id, b.id) })
		got := of[0].got
		for _, p := range of {
			if p.got.After(got) {
				got = p.got
			}
		}
		if d := got.AddDays(m.between(0, 50)); !d.After(m.end()) {
			m.sellSet(name, of, d)
		}
	}
}

// sellSet writes one line for the set, and may be a part payment before it, a
// refund of part of it, and the return and resale of one piece.
func (m *maker) sellSet(name string, of []*piece, d calendar.Date) {
	if m.chance(40) {
		m.setLine(name, of, d.AddDays(-m.IntN(10)), "part payment", m.cents(20, 90), 0)
	}
	price, delivery := m.cents(150, 1500), money.Cents(0)
	if m.chance(40) {
		delivery = m.cents(20, 90)
	}
	m.setLine(name, of, d, "sale", price, delivery)
	for _, p := range of {
		p.left, p.cursor = d, d
	}
	if back := d.AddDays(m.IntN(40)); m.chance(50) && !back.After(m.end()) {
		m.setLine(name, of, back, "refund", price/5, delivery/3)
		for _, p := range of {
			p.cursor = back
		}
	}
	p := of[m.IntN(len(of))]
	back, ok := m.later(p, 0, 60)
	if m.chance(60) {
		m.when(p, m.takeBack)(back, ok)
		m.when(p, m.sell)(m.later(p, 0, 45))
	}
}

// setLine writes a line for several pieces and works out each one's part of it,
// as a refusal rests on that.
func (m *maker) setLine(name string, of []*piece, d calendar.Date, kind string, price, delivery money.Cents) {
	ids := make([]string, len(of))
	weights := make([]*big.Rat, len(of))
	asking, worth := true, true
	for i, p := range of {
		ids[i] = p.id
		asking, worth = asking && p.asking > 0, worth && p.worth > 0
	}
	for i, p := range of {
		switch {
		case asking:
			weights[i] = p.asking.Rat()
		case worth:
			weights[i] = p.worth.Rat()
		default:
			weights[i] = big.NewRat(1, 1)
		}
	}
	pieces := name
	if m.chance(40) {
		pieces = m.list(ids)
	}
	r := row{"sold_on": d.String(), "pieces": pieces, "type": kind, "price": price.String()}
	if kind == "refund" {
		m.backTerms(r)
	} else {
		m.terms(r)
	}
	if delivery > 0 {
		r["delivery_charged"] = delivery.String()
	}
	m.add("sales", r)
	p, q := money.Share(price, weights), money.Share(delivery, weights)
	for i := range of {
		if kind == "refund" {
			of[i].back += p[i].Cents + q[i].Cents
		} else {
			of[i].paid += p[i].Cents + q[i].Cents
		}
	}
}
