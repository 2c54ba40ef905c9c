package bigbooks

import (
	"fmt"

	"piecebook/ledger/calendar"
	"piecebook/ledger/money"
)

// supply is one of the shelf.
type supply struct {
	name, group, container, shareBy string
	coverage                        int // of a container, in what it is shared by
	stated                          string
	price                           money.Cents
	does                            int                    // what a container really does, per cent of the coverage
	left                            int                    // thousandths of a container
	need                            map[calendar.Month]int // hundredths of what it is shared by
}

// stockShelf writes the supplies, their openings and the schedules: those of
// the sample shop.
func (m *maker) stockShelf() {
	m.shelf = []*supply{
		{name: "Stripper, gel", group: "stripper", container: "1 gal", coverage: 100, price: 52_00},
		{name: "Degreaser", group: "cleaner", container: "1 qt", coverage: 150, price: 10_00},
		{name: "Sanding discs, 5 in", group: "abrasive", container: "50 discs", shareBy: "hours", coverage: 90, price: 21_50},
		{name: "Sandpaper, 220 grit", group: "abrasive", container: "25 sheets", coverage: 260, price: 15_30},
		{name: "Steel wool, 0000", group: "abrasive", container: "12 pads", coverage: 170, price: 7_20},
		{name: "Wood filler", group: "filler", container: "14 oz", coverage: 300, stated: "-", price: 11_49},
		{name: "Wood glue", group: "glue", container: "16 fl oz", coverage: 300, stated: "-", price: 9_30},
		{name: "Primer, bonding", group: "primer", container: "1 qt", coverage: 85, price: 27_00},
		{name: "Paint, warm white", group: "paint", container: "1 qt", coverage: 125, price: 34_98},
		{name: "Paint, sage", group: "paint", container: "1 qt", coverage: 120, price: 34_98},
		{name: "Paint, inky blue", group: "paint", container: "1 qt", coverage: 115, price: 36_50},
		{name: "Paint, soot", group: "paint", container: "1 qt", coverage: 120, price: 34_98},
		{name: "Stain, walnut", group: "stain", container: "1 qt", coverage: 160, price: 16_40},
		{name: "Stain, golden oak", group: "stain", container: "1 qt", coverage: 160, price: 16_40},
		{name: "Water-base clear, satin", group: "topcoat", container: "1 qt", coverage: 125, price: 26_70},
		{name: "Wiping varnish", group: "topcoat", container: "1 qt", coverage: 135, price: 23_80},
		{name: "Shellac, dewaxed", group: "topcoat", container: "1 qt", coverage: 105, price: 24_90},
		{name: "Paste wax", group: "wax", container: "16 oz", coverage: 150, price: 15_60},
		{name: "Mineral spirits", group: "solvent", container: "1 qt", shareBy: "bench", coverage: 1000, price: 12_10},
		{name: "Brushes, 2 in", group: "applicator", container: "12 each", shareBy: "pieces", coverage: 26, price: 18_29},
		{name: "Nitrile gloves", group: "protective", container: "100 each", shareBy: "bench", coverage: 2100, price: 16_00},
		{name: "Cotton rags", group: "protective", container: "150 each", shareBy: "bench", coverage: 2900, price: 15_50},
		{name: "Respirator cartridges", group: "protective", container: "1 pair", shareBy: "hours", coverage: 110, price: 19_80},
		{name: "Masking tape and paper", group: "other", container: "1 roll", shareBy: "bench", coverage: 1500, stated: "all", price: 6_26},
	}
	m.byName = map[string]*supply{}
	first := m.first.First()
	for i, s := range m.shelf {
		m.byName[s.name] = s
		s.need = map[calendar.Month]int{}
		s.does = m.between(85, 115)
		stated := s.stated
		switch stated {
		case "":
			stated = fmt.Sprint(s.coverage)
		case "-":
			stated = ""
		}
		m.add("Supplies", first, row{"supply": s.name, "group": s.group, "container": s.container, "share_by": s.shareBy,
			"coverage": stated})
		if i%2 == 0 {
			s.left = 500
			m.add("Openings", first, row{"on": first.String(), "supply": s.name, "amount": "0.5", "cost": (s.price / 2).String(),
				"deducted": m.pick("yes", "no")})
		}
	}
	for _, line := range schedules {
		m.add("Schedules", first, row{"schedule": line.schedule, "supply": line.supply, "coats": line.coats})
	}
}

// schedules are the finishing schedules' lines.
var schedules = []struct {
	schedule, supply, coats string
	passes                  int
}{
	{"Strip to bare", "Stripper, gel", "2", 2},
	{"Strip to bare", "Steel wool, 0000", "", 1},
	{"Paint prep", "Degreaser", "", 1},
	{"Paint prep", "Sandpaper, 220 grit", "", 1},
	{"Paint prep", "Primer, bonding", "", 1},
	{"Varnished clear", "Sandpaper, 220 grit", "", 1},
	{"Varnished clear", "Wiping varnish", "3", 3},
}

// needHours notes what bench hours take of the supplies that are not put on
// single pieces: by hours, and by about 1.3 square feet and 0.2 pieces an hour.
func (m *maker) needHours(month calendar.Month, quarters int) {
	for _, s := range m.shelf {
		switch s.shareBy {
		case "hours":
			s.need[month] += 25 * quarters
		case "bench":
			s.need[month] += 130 * quarters / 4
		case "pieces":
			s.need[month] += 5 * quarters
		}
	}
}

// supply writes purchases that cover each month's need with some to spare, and
// counts of what is left, each supply's about every third month.
func (m *maker) supply() {
	for month := m.first; month <= LastMonth; month++ {
		for i, s := range m.shelf {
			used := s.need[month] * 1000 / s.coverage / s.does
			m.buy(s, month, used)
			if used = min(used, s.left); s.stated == "all" {
				used = s.left
			}
			s.left -= used
			if (int(month)+i)%3 == 0 && s.stated != "all" {
				m.count(s, month)
			}
		}
	}
}

// buy writes what a month's work takes beyond what is left, a few containers
// a time, and now and then one more.
func (m *maker) buy(s *supply, month calendar.Month, used int) {
	for s.left < used {
		n := min(m.between(1, 2), (used-s.left+999)/1000)
		cost := s.price * money.Cents(n*m.between(95, 108)) / 100
		on := m.day(month)
		m.add("Purchases", on, row{"bought_on": on.String(), "supply": s.name, "containers": fmt.Sprint(n),
			"cost":     cost.String(),
			"tax_paid": taxOf(cost).String(), "from": m.pick("hardware store", "paint store"), "receipt": m.receipt()})
		s.left += 1000 * n
	}
}

// count writes what is left of a supply at the month's end, to a twentieth.
func (m *maker) count(s *supply, month calendar.Month) {
	s.left -= s.left % 50
	r := row{"counted_on": month.Last().String(), "supply": s.name, "left": hundredths(s.left / 10)}
	if s.left >= 200 && m.chance(30) {
		s.left -= 50
		r["left"], r["discarded"] = hundredths(s.left/10), "0.05"
	}
	m.add("Counts", month.Last(), r)
}
