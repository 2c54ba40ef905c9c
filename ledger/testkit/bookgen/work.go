package bookgen

import (
	"fmt"
	"slices"
	"strings"

	"piecebook/ledger/calendar"
	"piecebook/ledger/money"
)

// makeSchedules writes two finishing schedules, one with a supply twice.
func (m *maker) makeSchedules() {
	for _, name := range []string{"Paint it", "Strip and clear"} {
		var of []*supply
		for _, s := range m.supplies {
			if s.quiet == 0 && m.chance(30) {
				of = append(of, s)
			}
		}
		of = append(of, m.supplies[2])
		if m.chance(40) {
			of = append(of, of[0])
		}
		for _, s := range of[:min(len(of), 4)] {
			m.add("schedules", row{"schedule": name, "supply": s.name, "coats": m.pick("", "1", "2", "1.5")})
		}
	}
}

// work writes the uses, hours, parts and trips of pieces while they are in the
// shop, and the hours of the shop.
func (m *maker) work() {
	for _, p := range m.pieces {
		until := m.end()
		if !p.left.IsZero() {
			until = p.left
		}
		if d := p.got.AddDays(75); d.Before(until) {
			until = d
		}
		for range m.IntN(7) {
			m.use(p, m.within(p.got, until))
		}
		for range m.IntN(4) {
			m.hours(p, m.within(p.got, until))
		}
		if m.chance(45) {
			m.part(p, m.within(p.got, until))
		}
		if m.chance(30) {
			m.trip(p, m.within(p.got, until))
		}
		m.ahead(p)
	}
	for range m.between(1, 4) {
		on := m.day(m.month(m.IntN(m.months)), 1, 31)
		m.add("hours", row{"worked_on": on.String(), "hours": m.pick("1.5", "0:45", "90 min"), "task": "sweeping"})
		m.add("trips", row{"on": on.String(), "miles": decimal(m.between(10, 900), 10), "purpose": "supplies", "to": "town",
			"tolls": m.maybe(30, 1, 9)})
	}
}

// ahead writes what is bought, driven or worked for a piece before it comes.
func (m *maker) ahead(p *piece) {
	on := p.got.AddDays(-m.between(1, 75))
	if on.InMonth() < m.start || !m.chance(25) {
		return
	}
	m.part(p, on)
	if m.chance(30) {
		m.hours(p, on)
		m.trip(p, on)
	}
}

// list is pieces as one cell, with one of the separators.
func (m *maker) list(ids []string) string {
	return strings.Join(ids, m.pick("; ", ", ", " + ", ";"))
}

// company is a cell of the piece, or of it and others that are there by then;
// where a whole lot is, by the lot's name. Whether each has an area is reported,
// and how many there are.
func (m *maker) company(p *piece, on calendar.Date, there bool) (cell string, all []*piece) {
	all = []*piece{p}
	if p.alone || m.chance(70) {
		return p.id, all
	}
	if p.lot != "" && m.chance(40) {
		all = nil
		for _, q := range m.pieces {
			if q.lot == p.lot {
				all = append(all, q)
			}
		}
		return p.lot, all
	}
	ids := []string{p.id}
	for _, q := range m.pieces {
		if q != p && !q.alone && len(all) < 3 && m.chance(12) && (!there || m.isThere(q, on)) {
			all = append(all, q)
			ids = append(ids, q.id)
		}
	}
	return m.list(ids), all
}

// isThere says that a piece has come and not left for good by then.
func (m *maker) isThere(p *piece, on calendar.Date) bool {
	return !p.got.After(on) && (p.left.IsZero() || !p.left.Before(on))
}

// use writes a use of a supply or a schedule, measured or not, with an area
// where one is needed.
func (m *maker) use(p *piece, on calendar.Date) {
	cell, all := m.company(p, on, true)
	r := row{"used_on": on.String(), "pieces": cell, "coats": m.pick("", "", "1", "2", "3", "0.5")}
	known := !slices.ContainsFunc(all, func(q *piece) bool { return !q.hasArea })
	if !known || m.chance(30) {
		r["area"] = decimal(m.between(200, 6000), 100)
	}
	s := m.supplies[m.IntN(len(m.supplies))]
	switch {
	case m.chance(15):
		r["schedule"] = m.pick("Paint it", "Strip and clear")
	case on.InMonth() < m.month(s.quiet):
		// Not used yet, so that all that was bought can be taken back.
		return
	default:
		r["supply"] = s.name
		if m.chance(25) {
			n := m.between(1, parts/2)
			if m.chance(12) {
				n = m.between(3*parts, 9*parts) // more than there can be
			}
			r["amount"] = m.amount(s, n)
		}
	}
	m.add("uses", r)
}

// hours writes time on a piece, or several.
func (m *maker) hours(p *piece, on calendar.Date) {
	cell, _ := m.company(p, on, false)
	m.add("hours", row{"worked_on": on.String(), "pieces": cell, "hours": m.pick("2.5", "2:30", "3h 20m", "50 min", "4",
		"0.25", "7 1/2"), "task": m.pick("", "sanding")})
}

// part writes a part or outside work, and may be part of its money back.
func (m *maker) part(p *piece, on calendar.Date) {
	cell, _ := m.company(p, on, false)
	cost := m.cents(2, 120)
	kind := m.pick("", "part", "outside work")
	m.add("parts", row{"bought_on": on.String(), "pieces": cell, "what": m.pick("knobs", "caning", "hinges"),
		"cost":     cost.String(),
		"tax_paid": m.maybe(30, 0, 8), "type": kind, "from": m.pick("", "mill"), "receipt": m.receipt()})
	if back := on.AddDays(m.IntN(30)); m.chance(20) && !back.After(m.end()) {
		m.add("parts", row{"bought_on": back.String(), "pieces": cell, "what": "some back", "cost": (-(cost / 3)).String(),
			"type": kind})
	}
}

// trip writes a drive for a piece, or several.
func (m *maker) trip(p *piece, on calendar.Date) {
	cell, _ := m.company(p, on, false)
	m.add("trips", row{"on": on.String(), "miles": decimal(m.between(5, 1200), 10), "purpose": m.pick("pick up",
		"deliver"),
		"to": m.pick("", "town"), "tolls": m.maybe(25, 1, 12), "pieces": cell, "receipt": m.receipt()})
}

// lateCosts writes what comes after a piece has left, in a later month.
func (m *maker) lateCosts() {
	for _, p := range m.pieces {
		if p.left.IsZero() || !m.chance(40) {
			continue
		}
		on := m.day(p.left.InMonth()+calendar.Month(m.between(1, 2)), 1, 31)
		if on.After(m.end()) {
			continue
		}
		switch m.IntN(4) {
		case 0:
			m.part(p, on)
		case 1:
			m.use(p, on)
		case 2:
			m.hours(p, on)
		default:
			m.trip(p, on)
			m.add("expenses", row{"paid_on": on.String(), "what": "dump fee", "group": "other",
				"amount": m.cents(2, 40).String(), "pieces": p.id})
		}
	}
}

// moves writes parts moved between pieces, also from and to sold ones. At most
// six tenths of the piece's own price go, which its cost is never below.
func (m *maker) moves() {
	want := m.between(1, 5)
	for try := 0; try < 200 && len(m.rows["moves"]) < want; try++ {
		from, to := m.pieces[m.IntN(len(m.pieces))], m.pieces[m.IntN(len(m.pieces))]
		room := from.price*6/10 - from.moved
		if from == to || room < 100 {
			continue
		}
		on := m.within(from.got, m.end())
		value := 100 + money.Cents(m.Int64N(int64(room)-99))
		from.moved += value
		m.add("moves", row{"moved_on": on.String(), "from_piece": from.id, "to_piece": to.id, "what": "brass pulls",
			"value": value.String()})
	}
}

// shop writes what is the shop's: expenses, equipment, other income, tax sent
// in, payouts and statements.
func (m *maker) shop() {
	groups := []string{"booth rent", "storage", "insurance", "advertising", "office", "utilities", "repairs",
		"legal and professional", "licences", "training", "small tools", "other"}
	for i := range m.months {
		month := m.month(i)
		for range m.between(1, 3) {
			m.add("expenses", row{"paid_on": m.day(month, 1, 31).String(), "what": m.pick("gas", "rent", "ad"),
				"group":  m.pick(groups...),
				"amount": m.cents(5, 150).String(), "channel": m.pick("", "market"), "receipt": m.receipt()})
		}
		if i == 1 || m.chance(35) {
			rent := m.maybe(60, 30, 80)
			m.add("payouts", row{"paid_on": m.day(month, 10, 31).String(), "channel": m.pick("market", "booth"),
				"amount":  m.cents(20, 900).String(),
				"through": month.First().AddDays(8).String(), "rent": rent, "other": m.maybe(20, 1, 5)})
			if rent != "" && m.chance(60) {
				m.add("expenses", row{"paid_on": month.First().String(), "what": "booth", "group": "booth rent", "amount": rent})
			}
		}
		if i%3 == 2 {
			m.add("tax paid", row{"paid_on": m.day(month, 1, 31).String(), "period": fmt.Sprintf("quarter to %s", month),
				"amount": m.cents(5, 90).String(), "kept": m.maybe(50, 0, 4)})
		}
	}
	m.add("expenses", row{"paid_on": m.day(m.month(2), 1, 31).String(), "what": "back from the ad", "group": "advertising",
		"amount": "-12.50"})
	for _, p := range m.pieces {
		if m.chance(15) {
			on := m.within(p.got, m.end())
			cell, _ := m.company(p, on, false)
			m.add("expenses", row{"paid_on": on.String(), "what": "listing fee", "group": "other",
				"amount": m.cents(1, 20).String(), "channel": "market", "pieces": cell})
		}
	}
	for i, life := range []string{"", "at once", "5", "7"} {
		m.add("equipment", row{"bought_on": m.day(m.month(i), 1, 31).String(), "what": "tool",
			"cost": m.cents(50, 2000).String(), "tax_paid": m.maybe(40, 1, 90), "life": life})
	}
	for i, group := range []string{"rebate", "insurance", "tool sold", "scrap", "allowance", "other"} {
		if i == 0 || m.chance(60) {
			m.add("other income", row{"got_on": m.day(m.month(m.IntN(m.months)), 1, 31).String(), "what": group, "group": group,
				"amount": m.cents(1, 60).String()})
		}
	}
	m.add("statements", row{"year": fmt.Sprint(m.start.Year()), "channel": "market", "gross": m.cents(100, 4000).String()})
}

// details fills in columns that change no other line, last of all, so that the
// books of a seed keep what they had.
func (m *maker) details() {
	for _, p := range m.pieces {
		p.row["condition"] = m.pick("", "good", "fair", "rough")
		if p.hasArea && m.chance(20) {
			p.row["schedule"] = m.pick("Paint it", "STRIP AND CLEAR")
		}
	}
	for _, r := range m.rows["expenses"] {
		r["to"] = m.pick("", "", "market hall")
	}
	bought := m.day(m.month(1), 1, 31)
	m.add("equipment", row{"bought_on": bought.String(), "what": "lathe", "cost": m.cents(50, 4000).String(),
		"life":    "first year",
		"sold_on": m.within(bought, m.end()).String(), "sold_for": m.cents(0, 900).String()})
}
