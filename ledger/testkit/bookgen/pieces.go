package bookgen

import (
	"fmt"
	"slices"

	"piecebook/ledger/calendar"
	"piecebook/ledger/money"
)

// piece is a piece of furniture and what has become of it so far.
type piece struct {
	id      string
	kind    string
	how     string
	lot     string
	set     string
	got     calendar.Date
	price   money.Cents
	worth   money.Cents // 0: none
	asking  money.Cents // 0: none
	hasArea bool        // typed, of Surfaces, or usual for its kind
	alone   bool        // its name cannot stand in a list
	row     row

	paid, back money.Cents   // received for it, and given back
	left       calendar.Date // out of stock since; zero: in stock
	gone       bool          // removed: nothing more can be sold
	cursor     calendar.Date // the day of the last thing that happened to it
	moved      money.Cents   // value moved from it
}

// usual are kinds that have a usual area, and unusual ones that have none.
var (
	usual   = []string{"dresser", "nightstand", "side chair", "Dining Table", "bookcase", "desk", "mirror", "chest"}
	unusual = []string{"washstand", "hall tree"}
)

// makePieces makes the pieces and lots: what they are and how they came.
func (m *maker) makePieces() {
	n := m.between(15, 25)
	for i := range n {
		p := &piece{id: fmt.Sprintf("P%03d", 3*i+1), kind: m.pick(usual...), how: "bought", hasArea: true}
		switch i {
		case 4:
			p.id = "Gran's rocker"
		case 5:
			p.id, p.alone = "Chair, blue + cane", true
		case 6, 7:
			p.kind = m.pick(unusual...)
		}
		// Nothing comes in the last two months, so that it can still be sold.
		p.got = m.day(m.month(m.between(0, m.months-3)), 1, 31)
		m.pieces = append(m.pieces, p)
	}
	m.Shuffle(n, func(i, j int) { m.pieces[i], m.pieces[j] = m.pieces[j], m.pieces[i] })
	at := m.makeLots()
	for i, p := range m.pieces {
		p.row = row{"piece": p.id, "kind": p.kind, "got_on": p.got.String()}
		m.describe(p)
		if i < at {
			m.ofLot(p)
			continue
		}
		m.acquire(p, i-at)
	}
	for _, p := range m.pieces {
		m.measure(p)
		p.cursor = p.got
	}
}

// makeLots makes one lot of each way of sharing from the first pieces, and
// says how many pieces that took.
func (m *maker) makeLots() int {
	at := 0
	for i, shareBy := range []string{"worth", "equal", ""} {
		id := fmt.Sprintf("L%d", i+1)
		got := m.day(m.month(m.between(0, m.months-3)), 1, 31)
		worths := shareBy == "worth" || m.chance(50)
		for k := range m.between(2, 3) {
			p := m.pieces[at]
			at++
			p.lot, p.got, p.how = id, got, "bought"
			if worths || k > 0 {
				p.worth = m.cents(5, 200)
			}
		}
		m.add("lots", row{"lot": id, "got_on": got.String(), "from": m.pick("", "auction"),
			"price": m.cents(30, 300).String(),
			"fees":  m.maybe(60, 1, 40), "tax_paid": m.maybe(40, 1, 20), "pickup": m.maybe(40, 5, 40), "share_by": shareBy,
			"receipt": m.receipt()})
	}
	return at
}

// ofLot fills in what a lot's piece may have of its own.
func (m *maker) ofLot(p *piece) {
	p.row["lot"] = p.lot
	if m.chance(60) {
		delete(p.row, "got_on")
	}
	p.row["tax_paid"], p.row["pickup"] = m.maybe(20, 1, 9), m.maybe(20, 5, 30)
}

// acquire fills in how a piece that is in no lot came; each way comes up.
func (m *maker) acquire(p *piece, i int) {
	switch i {
	case 0:
		p.how = "free"
	case 1:
		p.how = "own"
		if m.chance(50) {
			p.price = m.cents(10, 90)
		}
	case 2:
		p.how, p.price = "traded", m.cents(20, 150)
	case 3, 4:
		p.how = "client"
	default:
		p.price = m.cents(10, 250)
		p.row["tax_paid"] = m.maybe(40, 1, 15)
	}
	if p.how != "bought" || m.chance(50) {
		p.row["how"] = p.how
	}
	if p.price > 0 {
		p.row["price"] = p.price.String()
	}
	p.row["pickup"] = m.maybe(30, 5, 40)
	if m.chance(50) {
		p.worth = m.cents(5, 300)
	}
}

// describe fills in what moves no money.
func (m *maker) describe(p *piece) {
	p.row["description"] = m.pick("", "oak", "tiger, oak", "pine \"shaker\"")
	p.row["from"] = m.pick("", "kerb", "estate sale")
	p.row["old_finish"] = m.pick("", "clear", "painted", "none")
	p.row["receipt"] = m.receipt()
	if m.chance(30) {
		p.row["made"] = fmt.Sprint(m.between(1890, 1990))
	}
	if m.chance(65) {
		p.asking = m.cents(60, 700)
	}
}

// measure gives a piece its area: typed, from Surfaces, or its kind's; an
// unusual kind may be left without any.
func (m *maker) measure(p *piece) {
	usualKind := slices.Contains(usual, p.kind)
	switch {
	case m.chance(35):
		p.row["area"] = decimal(m.between(300, 9000), 100)
	case m.chance(45):
		m.surfaces(p)
	case !usualKind && m.chance(50):
		m.surfaces(p)
	case !usualKind:
		p.hasArea = false
	}
}

// surfaces measures a piece by one to four of the shapes.
func (m *maker) surfaces(p *piece) {
	shapes := []row{
		{"part": "top", "shape": "rectangle", "width": "18", "height": decimal(m.between(200, 500), 10), "faces": m.pick("", "2")},
		{"part": "gable", "shape": "triangle", "width": "20", "height": "12 1/2"},
		{"part": "seat", "shape": "disc", "width": decimal(m.between(100, 200), 10), "relief": m.pick("", "1.15")},
		{"part": "hex top", "shape": "polygon", "width": "9.5", "sides": "6", "faces": "2"},
		{"part": "legs", "shape": "cylinder", "count": "4", "width": "1 1/2", "height": fmt.Sprint(m.between(12, 30)), "relief": "1.2"},
		{"part": "shade", "shape": "cone", "top": "4", "bottom": "7.5", "height": "11"},
		{"part": "tapers", "shape": "square taper", "count": "4", "top": "2.5", "bottom": "1", "height": fmt.Sprint(m.between(16, 28))},
	}
	m.Shuffle(len(shapes), func(i, j int) { shapes[i], shapes[j] = shapes[j], shapes[i] })
	for _, r := range shapes[:m.between(1, 4)] {
		r["piece"] = p.id
		m.add("surfaces", r)
	}
}

// writePieces writes the Pieces rows, once the pieces' lives are known.
func (m *maker) writePieces() {
	for _, p := range m.pieces {
		p.row["set"] = p.set
		if p.worth > 0 {
			p.row["worth"] = p.worth.String()
		}
		if p.asking > 0 {
			p.row["asking"] = p.asking.String()
		}
		if m.chance(60) && p.row["finished_on"] == "" {
			started := m.within(p.got, m.end())
			finished := m.within(started, m.end())
			p.row["started_on"], p.row["finished_on"], p.row["listed_on"] = started.String(), finished.String(),
				m.within(finished, m.end()).String()
		}
		m.add("pieces", p.row)
	}
}
