package bookgen

import (
	"fmt"
	"slices"

	"piecebook/ledger/calendar"
	"piecebook/ledger/money"
)

// parts of a container that amounts on the shelf are worked out in, so that they
// are whole numbers.
const parts = 40

// supply is one of the shelf, with what the rules of refusal need to know.
type supply struct {
	name, group, container string
	small                  int    // how many of unit are in a container
	unit                   string // the smaller unit amounts may be given in
	other                  string // a container of another size
	otherParts             int    // what that holds, in parts
	shareBy, coverage      string
	stays                  string
	price                  money.Cents // a container's
	quiet                  int         // months before its first use; 0: none
}

// catalog is what the shelf is chosen from. The first ones are always there, so
// that every way of sharing comes up.
func catalog() []*supply {
	return []*supply{
		{name: "Primer", group: "primer", container: "1 qt", small: 32, unit: "fl oz", other: "1 pt", otherParts: 20, coverage: "100"},
		{name: "Clear coat", group: "topcoat", container: "1 qt", small: 2, unit: "pt", other: "1 gal", otherParts: 160},
		{name: "Mineral spirits", group: "solvent", container: "1 gal", small: 4, unit: "qt", other: "1 qt", otherParts: 10, shareBy: "bench"},
		{name: "Dust masks", group: "protective", container: "20 each", small: 20, unit: "each", other: "10 each", otherParts: 20, shareBy: "hours", stays: "no"},
		{name: "Gloves", group: "protective", container: "10 pairs", small: 10, unit: "pairs", other: "5 pairs", otherParts: 20, shareBy: "pieces"},
		{name: "Rags", group: "other", container: "1 bag", small: 1, unit: "bag", shareBy: "area", coverage: "all"},
		{name: "Paper 180", group: "abrasive", container: "50 sheets", small: 50, unit: "sheets", other: "25 sheets", otherParts: 20},
		{name: "Stripper", group: "stripper", container: "1 gal", small: 128, unit: "fl oz", other: "1 qt", otherParts: 10, coverage: "80"},
		{name: "Odd oil", group: "other", container: "250 ml", small: 250, unit: "ml", other: "500 ml", otherParts: 80},
		{name: "Steel wool", group: "abrasive", container: "8 pads", small: 8, unit: "pads", shareBy: "bench", coverage: "all"},
		{name: "White paint", group: "paint", container: "1 qt", small: 4, unit: "cup", other: "8 fl oz", otherParts: 10, coverage: "110"},
		{name: "Spray primer", group: "primer", container: "12 oz", small: 12, unit: "oz", other: "6 oz", otherParts: 20, coverage: "12 1/2"},
		{name: "Wax", group: "wax", container: "1 lb", small: 16, unit: "oz", other: "8 oz", otherParts: 20, stays: "yes"},
		{name: "Filler", group: "filler", container: "6 oz", small: 6, unit: "oz", stays: "no"},
		{name: "Hide glue", group: "glue", container: "8 fl oz", small: 8, unit: "fl oz", other: "4 fl oz", otherParts: 20},
		{name: "Walnut stain", group: "stain", container: "1 pt", small: 16, unit: "fl oz", other: "1 qt", otherParts: 80},
		{name: "Foam brushes", group: "applicator", container: "12 each", small: 12, unit: "each", shareBy: "pieces", coverage: "4"},
		{name: "Discs 120", group: "abrasive", container: "25 discs", small: 25, unit: "discs", shareBy: "hours", coverage: "15"},
		{name: "Soap, mild", group: "cleaner", container: "1 l", small: 1000, unit: "ml", shareBy: "pieces", coverage: "all"},
	}
}

// makeSupplies chooses 12 to 18 supplies.
func (m *maker) makeSupplies() {
	all := catalog()
	rest := all[10:]
	m.Shuffle(len(rest), func(i, j int) { rest[i], rest[j] = rest[j], rest[i] })
	m.supplies = all[:m.between(12, 18)]
	for _, s := range m.supplies {
		s.price = m.cents(4, 60)
		if s.byArea() && m.chance(25) {
			s.quiet = m.between(1, 3)
		}
		m.add("supplies", row{"supply": s.name, "group": s.group, "container": s.container, "share_by": s.shareBy,
			"coverage": s.coverage, "stays": s.stays, "caution": m.pick("", "keep from fire")})
	}
}

// byArea says that nothing is drawn of the supply but for its own uses.
func (s *supply) byArea() bool { return s.shareBy == "" || s.shareBy == "area" }

// amount writes so many parts, in containers or in the smaller unit.
func (m *maker) amount(s *supply, n int) string {
	switch {
	case m.chance(50):
		return decimal(n, parts)
	case n%parts == 0 || n < parts:
		if n*s.small%parts == 0 {
			return fmt.Sprintf("%d %s", n*s.small/parts, s.unit)
		}
	}
	return decimal(n*s.small, parts) + " " + s.unit
}

// cost is so many parts at the supply's price, give or take a tenth.
func (m *maker) cost(s *supply, n int) money.Cents {
	return max(1, s.price*money.Cents(n*m.between(90, 110))/(parts*100))
}

// flow is one thing that came to the shelf or went back from it.
type flow struct {
	on    calendar.Date
	parts int // negative: taken back
}

// stockShelf writes openings, purchases, what is taken back, and counts. One
// supply is never bought; uses of it cost nothing.
func (m *maker) stockShelf() {
	for i, s := range m.supplies {
		if i == len(m.supplies)-1 && m.chance(40) {
			continue
		}
		opening := 0
		if i == 1 || m.chance(30) {
			opening = m.between(2, 60)
			m.add("openings", row{"on": m.start.First().String(), "supply": s.name, "amount": m.amount(s, opening),
				"cost": m.cost(s, opening).String(), "deducted": m.pick("yes", "no")})
		}
		m.runShelf(s, opening, m.buy(s, opening > 0))
	}
}

// buy writes a supply's purchases: of the usual size or another, several on a
// day now and then. A tool of the shelf that had an opening may be bought late.
func (m *maker) buy(s *supply, had bool) []flow {
	var out []flow
	first := 0
	if had || m.shopping {
		first = m.IntN(3)
	}
	for i := first; i < m.months; i++ {
		if i > first && m.chance(m.unless(40, 55)) {
			continue
		}
		on := m.day(m.month(i), 1, 31)
		for range m.pickInt(1, 1, 1, 2) {
			containers, size, text := m.between(1, m.unless(2, 3)), parts, ""
			if s.other != "" && m.chance(m.unless(40, 30)) {
				size, text = s.otherParts, s.other
			}
			n := containers * size
			m.add("purchases", row{"bought_on": on.String(), "supply": s.name, "containers": fmt.Sprint(containers),
				"container": text,
				"cost":      m.cost(s, n).String(), "tax_paid": m.maybe(50, 0, 5), "from": m.pick("", "hardware store"),
				"receipt": m.receipt()})
			out = append(out, flow{on, n})
			if m.chance(60) {
				on = m.day(m.month(i), on.Day, 31)
			}
		}
	}
	return out
}

// unless is the first where the shop goes shopping, else the second.
func (m *maker) unless(shopping, otherwise int) int {
	if m.shopping {
		return shopping
	}
	return otherwise
}

func (m *maker) pickInt(from ...int) int { return from[m.IntN(len(from))] }

// span is what is known for sure of a supply since its last counted month.
type span struct {
	opened int // parts on the shelf when it opened
	bought int // since, what was taken back not in it
	back   int
}

// runShelf goes through the months of a supply's shelf: takes back what can be
// taken back for sure, and counts.
func (m *maker) runShelf(s *supply, opening int, flows []flow) {
	counts := m.countDays()
	now := span{opened: opening}
	for i := range m.months {
		month := m.month(i)
		bought := 0
		for _, f := range flows {
			if f.on.InMonth() == month {
				bought += f.parts
			}
		}
		now.bought += bought
		days := counts[month]
		// Without a count only what this month brought is there for sure,
		// unless nothing of it has been used yet.
		room := bought
		if len(days) > 0 || i < s.quiet || m.shopping {
			room = now.opened + now.bought - now.back
		}
		if room > 0 && m.chance(m.unless(8, 20)) {
			n := m.between(1, room)
			if m.shopping && bought > 0 && m.chance(50) {
				n = bought // all that the month brought
			}
			on := m.takenBack(s, month, n)
			flows = append(flows, flow{on, -n})
			now.back += n
		}
		if len(days) > 0 {
			now = span{opened: m.count(s, now, month, days, flows)}
		}
	}
}

// takenBack writes a purchase line of so many parts going back, after the 5th,
// as a count of the first days closes the month before.
func (m *maker) takenBack(s *supply, month calendar.Month, n int) calendar.Date {
	on := m.day(month, 8, 31)
	r := row{"bought_on": on.String(), "supply": s.name, "containers": "-" + decimal(n, parts),
		"cost": (-m.cost(s, n)).String(), "from": "hardware store"}
	if s.other != "" && n%s.otherParts == 0 && m.chance(50) {
		r["containers"], r["container"] = fmt.Sprintf("-%d", n/s.otherParts), s.other
	}
	m.add("purchases", r)
	return on
}

// countDays is the days a supply is counted on, by the month they close: in
// some months several, and some in the first days of the next.
func (m *maker) countDays() map[calendar.Month][]calendar.Date {
	out := map[calendar.Month][]calendar.Date{}
	percent := m.pickInt(0, 15, 30, 60)
	if m.shopping {
		percent = m.pickInt(0, 0, 0, 12)
	}
	for i := range m.months {
		for m.chance(percent) && len(out[m.month(i)]) < 3 {
			d := m.day(m.month(i), 6, 31)
			if m.chance(35) {
				d = m.day(m.month(i), 25, 31)
			}
			if m.chance(35) && i+1 < m.months {
				d = m.day(m.month(i+1), 1, 5)
			}
			if !slices.Contains(out[m.month(i)], d) {
				out[m.month(i)] = append(out[m.month(i)], d)
			}
		}
		slices.SortFunc(out[m.month(i)], calendar.Date.Compare)
	}
	return out
}

// count writes the counts that close a month and says what they leave at its
// end: the last one's, corrected for what came or went between.
func (m *maker) count(s *supply, now span, month calendar.Month, days []calendar.Date, flows []flow) int {
	closing := 0
	for _, on := range days {
		there := now.opened + now.bought - now.back
		closing = 0
		for _, f := range flows {
			switch {
			case f.on.InMonth() == month && f.on.After(on):
				there -= f.parts
				closing += f.parts
			case f.on.InMonth() == month+1 && !f.on.After(on):
				there += f.parts
				closing -= f.parts
			}
		}
		there = max(0, there)
		left := 0
		switch {
		case m.chance(12):
		case m.chance(12):
			left = there + m.between(1, 30) // above the records
		default:
			left = m.IntN(there + 1)
		}
		r := row{"counted_on": on.String(), "supply": s.name, "left": m.amount(s, left)}
		if m.chance(25) {
			r["discarded"] = m.amount(s, m.between(0, 1+there/3))
		}
		m.add("counts", r)
		closing = max(0, left+closing)
	}
	return closing
}
