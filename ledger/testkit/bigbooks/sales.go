package bigbooks

import (
	"fmt"

	"piecebook/ledger/calendar"
	"piecebook/ledger/money"
)

// The channels, with the terms of the sample's.
const (
	online = "Online marketplace"
	booth  = "Antique mall booth"
	direct = "Direct"
)

func (m *maker) channels() {
	first := m.first.First()
	m.add("Channels", first, row{"channel": online, "from_date": first.String(), "fee_percent": "5", "fee_least": "0.80",
		"card_percent": "2.9", "card_fixed": "0.30"})
	later := (m.first + calendar.Month(6*m.size.Years)).First()
	m.add("Channels", first, row{"channel": online, "from_date": later.String(), "fee_percent": "6", "fee_least": "0.80",
		"card_percent": "2.9", "card_fixed": "0.30"})
	m.add("Channels", first, row{"channel": booth, "from_date": first.String(), "fee_percent": "10", "card_percent": "3"})
	m.add("Channels", first, row{"channel": direct, "from_date": first.String()})
}

// sell ends a job's life, where it ends before the books do: most are sold once
// some weeks after they are listed, some come back, some are removed.
func (m *maker) sell(j *job) {
	on := j.finished.AddDays(m.between(3, 80))
	at := m.IntN(1000)
	switch {
	case j.how == "client" && at < 50:
		m.remove(j, on, "given back")
	case j.how == "client":
		m.sale(j, j.finished.AddDays(m.between(1, 10)), direct, "sale", j.asking/3)
	case at < 15:
		m.remove(j, on, "scrapped")
	case at < 30:
		m.remove(j, on, "kept")
	case at < 40:
		m.remove(j, on, "donated")
	case at < 90: // stays, until the end of the books
	default:
		m.sellOnce(j, on, at)
	}
}

// sellOnce sells a job, some with a deposit, a refund or a return.
func (m *maker) sellOnce(j *job, on calendar.Date, at int) {
	channel := m.pick(online, online, online, booth, booth, direct)
	price := j.asking * money.Cents(m.between(85, 100)) / 100
	price -= price % 100
	if at < 110 {
		deposit := price / 4
		m.sale(j, on.AddDays(-m.between(1, 3)), channel, "part payment", deposit)
		price -= deposit
	}
	if !m.sale(j, on, channel, "sale", price) {
		return
	}
	back := on.AddDays(m.between(4, 12))
	switch {
	case at >= 110 && at < 130:
		m.sale(j, back, channel, "refund", price/10)
	case at >= 130 && at < 145 && m.sale(j, back, channel, "return", price):
		j.left = calendar.Date{}
		m.sale(j, back.AddDays(m.between(5, 40)), channel, "sale", price*9/10)
	}
}

// sale writes a Sales line, unless the books end before.
func (m *maker) sale(j *job, on calendar.Date, channel, kind string, price money.Cents) bool {
	r := row{"sold_on": on.String(), "pieces": j.cell, "channel": channel, "type": kind, "price": price.String(),
		"receipt": fmt.Sprintf("S%s", j.pieces[0][1:])}
	tax := taxOf(price)
	if channel == direct {
		r["sales_tax"] = tax.String()
	} else {
		r["marketplace_tax"] = tax.String()
	}
	charged := money.Cents(0)
	if kind == "sale" && channel == direct && m.chance(300) {
		charged = m.amount(15, 45)
		r["delivery_charged"] = charged.String()
		if m.chance(300) {
			r["delivery_cost"] = m.amount(10, 30).String()
		}
	}
	if !m.add("Sales", on, r) {
		return false
	}
	sign := money.Cents(1)
	if kind == "refund" || kind == "return" {
		sign = -1
	}
	if channel == direct {
		m.tax[on.InMonth()] += sign * tax
	}
	m.gross[channelMonth{channel, on.InMonth()}] += sign * (price + charged)
	if kind == "sale" {
		j.left = on
		if charged > 0 {
			m.trip(j, on, "deliver", "buyer")
		}
	}
	return true
}

// remove takes each piece of a job out of stock unsold.
func (m *maker) remove(j *job, on calendar.Date, why string) {
	for _, id := range j.pieces {
		r := row{"removed_on": on.String(), "piece": id, "why": why}
		if why == "kept" || why == "donated" {
			r["value"] = (j.asking / money.Cents(2*len(j.pieces))).String()
		}
		if m.add("Removals", on, r) {
			j.left = on
		}
	}
}

// moves writes parts moved from one piece to another, a few in a hundred.
func (m *maker) moves() {
	for i, from := range m.jobs[:max(0, len(m.jobs)-1)] {
		to, on := m.jobs[i+1], from.started.AddDays(3)
		here := !to.got.After(on) && to.how != "client" && (to.left.IsZero() || to.left.After(on))
		if from.price < 2_000 || from.lot != "" || !here || !m.chance(60) {
			continue
		}
		m.add("Moves", on, row{"moved_on": on.String(), "from_piece": from.pieces[0], "to_piece": to.pieces[0],
			"what": m.pick("brass pulls", "casters", "drawer runners"), "value": (from.price / 4).String()})
	}
}
