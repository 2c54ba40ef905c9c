package bookgen

import (
	"piecebook/ledger/calendar"
	"piecebook/ledger/money"
)

// makeChannels writes channels whose terms change, with every kind of fee.
func (m *maker) makeChannels() {
	first, later := m.start.First(), m.day(m.month(m.between(1, m.months-2)), 1, 31)
	m.add("channels", row{"channel": "market", "from_date": first.String(), "fee_percent": "10", "fee_least": "5.00",
		"card_percent": "2.99", "card_fixed": "0.30"})
	m.add("channels", row{"channel": "market", "from_date": later.String(), "fee_percent": "12.5", "fee_fixed": "0.40"})
	m.add("channels", row{"channel": "booth", "fee_percent": "8"})
	// Its terms begin late: before that no fee is worked out.
	m.add("channels", row{"channel": "online", "from_date": later.String(), "fee_percent": "6.625", "card_percent": "3"})
}

// liveLives gives every piece that is in no set a life. Which one goes round,
// so that a folder has nearly all of them.
func (m *maker) liveLives() {
	lives := []func(*piece){
		m.soldOnce, m.paidAhead, m.paidAfter, m.refundedTwice, m.backAndResoldLater, m.backSameMonth,
		m.backAndResoldSameMonth, m.soldAndBackSameMonthResoldLater, m.backAndScrapped, m.soldOnOwnRow,
		m.paidThenScrapped, m.removed("kept"), m.removed("donated"), m.removed("stolen"), m.removed("returned to seller"),
		m.soldOnce, func(*piece) {}, m.soldOnOwnRow,
	}
	m.Shuffle(len(lives), func(i, j int) { lives[i], lives[j] = lives[j], lives[i] })
	m.chooseSets()
	next, client := 0, 0
	for _, p := range m.pieces {
		switch {
		case p.set != "":
		case p.how == "client":
			client++
			[]func(*piece){m.soldOnce, m.removed("given back")}[client%2](p)
		default:
			lives[next%len(lives)](p)
			next++
		}
	}
}

// later is a day some days on, or false where the books end before.
func (m *maker) later(p *piece, low, high int) (calendar.Date, bool) {
	d := p.cursor.AddDays(m.between(low, high))
	return d, !d.After(m.end())
}

// nextMonth is a day in one of the next months, or false.
func (m *maker) nextMonth(p *piece) (calendar.Date, bool) {
	d := m.day(p.cursor.InMonth()+calendar.Month(m.between(1, 2)), 1, 31)
	return d, !d.After(m.end())
}

// sameMonth is a later day of the same month; it may be the same day.
func (m *maker) sameMonth(p *piece) (calendar.Date, bool) {
	return m.within(p.cursor, p.cursor.InMonth().Last()), true
}

// when moves a piece's time on to a day, where there is one, and does what
// happens then.
func (m *maker) when(p *piece, then func(*piece, calendar.Date)) func(calendar.Date, bool) {
	return func(d calendar.Date, ok bool) {
		if ok {
			p.cursor = d
			then(p, d)
		}
	}
}

func (m *maker) soldOnce(p *piece) { m.when(p, m.sell)(m.later(p, 0, 90)) }

// paidAhead has part payments long before and shortly before the piece comes.
func (m *maker) paidAhead(p *piece) {
	for range m.between(1, 2) {
		if d := p.got.AddDays(-m.between(1, 70)); d.InMonth() >= m.start {
			m.payment(p, d)
		}
	}
	m.soldOnce(p)
}

func (m *maker) paidAfter(p *piece) {
	m.when(p, m.payment)(m.later(p, 0, 40))
	m.soldOnce(p)
	if !p.left.IsZero() {
		m.when(p, m.payment)(m.later(p, 0, 60))
	}
}

func (m *maker) refundedTwice(p *piece) {
	m.soldOnce(p)
	for range 2 {
		d, ok := m.later(p, 0, 50)
		m.when(p, m.refund)(d, ok && !p.left.IsZero())
	}
}

func (m *maker) backAndResoldLater(p *piece) {
	m.soldOnce(p)
	m.when(p, m.takeBack)(m.nextMonth(p))
	m.when(p, m.sell)(m.nextMonth(p))
}

func (m *maker) backSameMonth(p *piece) {
	m.soldOnce(p)
	m.when(p, m.takeBack)(m.sameMonth(p))
}

func (m *maker) backAndResoldSameMonth(p *piece) {
	m.soldOnce(p)
	m.when(p, func(p *piece, d calendar.Date) {
		m.takeBack(p, d)
		m.when(p, m.sell)(m.sameMonth(p))
	})(m.nextMonth(p))
}

func (m *maker) soldAndBackSameMonthResoldLater(p *piece) {
	m.backSameMonth(p)
	m.when(p, m.sell)(m.nextMonth(p))
}

func (m *maker) backAndScrapped(p *piece) {
	m.soldOnce(p)
	m.when(p, m.takeBack)(m.nextMonth(p))
	m.when(p, m.remove("scrapped"))(m.later(p, 0, 40))
}

func (m *maker) paidThenScrapped(p *piece) {
	m.when(p, m.payment)(m.later(p, 0, 30))
	m.when(p, m.remove("scrapped"))(m.later(p, 0, 40))
	d, ok := m.later(p, 0, 40)
	m.when(p, m.refund)(d, ok && p.gone)
}

func (m *maker) removed(why string) func(*piece) {
	return func(p *piece) { m.when(p, m.remove(why))(m.later(p, 5, 90)) }
}

// remove writes a removal of a piece that is in stock.
func (m *maker) remove(why string) func(*piece, calendar.Date) {
	return func(p *piece, d calendar.Date) {
		if !p.left.IsZero() {
			return
		}
		r := row{"removed_on": d.String(), "piece": p.id, "why": why, "receipt": m.receipt()}
		switch why {
		case "scrapped", "stolen", "returned to seller":
			r["received"] = m.maybe(60, 1, 120)
		case "donated":
			r["value"] = m.cents(20, 200).String()
		}
		p.left, p.gone = d, true
		m.add("removals", r)
	}
}

// terms adds what is common to sales and part payments: tax, fees, delivery.
func (m *maker) terms(r row) {
	r["channel"] = m.pick("market", "market", "booth", "online", "direct", "Market")
	switch m.IntN(3) {
	case 0:
		r["sales_tax"] = m.cents(1, 40).String()
	case 1:
		r["marketplace_tax"] = m.cents(1, 40).String()
	}
	for _, fee := range []string{"fee", "card_fee"} {
		switch m.IntN(4) {
		case 0:
			r[fee] = m.cents(1, 30).String()
		case 1:
			r[fee] = "0"
		}
	}
	r["delivery_cost"] = m.maybe(30, 5, 60)
	r["receipt"] = m.receipt()
}

// sell writes a sale of a piece that is in stock.
func (m *maker) sell(p *piece, d calendar.Date) {
	if !p.left.IsZero() {
		return
	}
	price, delivery := m.cents(40, 800), money.Cents(0)
	r := row{"sold_on": d.String(), "pieces": p.id, "price": price.String(), "type": m.pick("", "sale")}
	m.terms(r)
	if m.chance(35) {
		delivery = m.cents(10, 80)
		r["delivery_charged"] = delivery.String()
	}
	p.paid += price + delivery
	p.left = d
	m.add("sales", r)
}

// soldOnOwnRow sells a piece on its Pieces row, with its hours.
func (m *maker) soldOnOwnRow(p *piece) {
	m.when(p, func(p *piece, d calendar.Date) {
		r := row{}
		m.terms(r)
		for _, column := range []string{"sales_tax", "fee", "card_fee", "delivery_cost"} {
			p.row[column] = r[column]
		}
		price := m.cents(40, 800)
		p.row["sold_on"], p.row["sold_price"] = d.String(), price.String()
		p.row["channel"] = m.pick("", r["channel"])
		p.row["hours"] = m.pick("", "31.5", "12:45", "9h 30m")
		if m.chance(50) {
			p.row["finished_on"] = m.within(p.got, d).String()
		}
		p.paid += price
		p.left = d
	})(m.later(p, 0, 90))
}

func (m *maker) payment(p *piece, d calendar.Date) {
	price := m.cents(10, 150)
	r := row{"sold_on": d.String(), "pieces": p.id, "price": price.String(), "type": "part payment"}
	m.terms(r)
	p.paid += price
	m.add("sales", r)
}

// backTerms is what a refund or return may carry beside its price.
func (m *maker) backTerms(r row) {
	r["channel"] = m.pick("market", "booth", "direct")
	r["fee"], r["card_fee"] = m.maybe(30, 1, 9), m.maybe(20, 1, 4)
	r["sales_tax"], r["delivery_cost"] = m.maybe(30, 1, 9), m.maybe(20, 5, 40)
}

// refund gives back part of what was paid for a piece, at most all of it.
func (m *maker) refund(p *piece, d calendar.Date) {
	room := p.paid - p.back
	if room <= 0 {
		return
	}
	price := 1 + money.Cents(m.Int64N(int64(room)))
	p.back += price
	r := row{"sold_on": d.String(), "pieces": p.id, "type": "refund", "price": price.String()}
	m.backTerms(r)
	m.add("sales", r)
}

// takeBack writes the return of a sold piece: its money whole, or less.
func (m *maker) takeBack(p *piece, d calendar.Date) {
	if p.left.IsZero() || p.gone {
		return
	}
	price, delivery := p.paid-p.back, money.Cents(0)
	if m.chance(40) {
		price = price * 4 / 5
	} else if m.chance(40) {
		delivery = min(price/4, 1000)
		price -= delivery
	}
	p.back += price + delivery
	p.left = calendar.Date{}
	r := row{"sold_on": d.String(), "pieces": p.id, "type": "return", "price": price.String()}
	m.backTerms(r)
	if delivery > 0 {
		r["delivery_charged"] = delivery.String()
	}
	m.add("sales", r)
}
