package bigbooks

import (
	"piecebook/ledger/calendar"
	"piecebook/ledger/money"
)

// step is one day's work on a job: its task, what is put on, and how much of
// the bench hours it takes.
type step struct {
	task     string
	supply   string
	schedule string
	coats    string
	passes   int // what coats says
	amount   int // hundredths of a container; 0: not measured
	part     int // of twelve of the job's hours
}

// paths are the ways to finish a piece.
func (m *maker) path() []step {
	repair := step{task: "repair", supply: m.pick("Wood glue", "Wood glue", "Wood filler"), part: 2}
	if repair.supply == "Wood glue" {
		repair.amount = m.between(1, 4) * 3
	}
	switch m.IntN(3) {
	case 0:
		paint := m.pick("Paint, warm white", "Paint, sage", "Paint, inky blue", "Paint, soot")
		return []step{
			{task: "clean", supply: "Degreaser", part: 1}, repair,
			{task: "prime", schedule: "Paint prep", part: 2},
			{task: "paint", supply: paint, coats: "2", passes: 2, part: 4},
			{task: "topcoat", supply: "Water-base clear, satin", coats: "2", passes: 2, part: 3},
		}
	case 1:
		return []step{
			{task: "strip", schedule: "Strip to bare", part: 4}, repair,
			{task: "stain", supply: m.pick("Stain, walnut", "Stain, golden oak"), part: 2},
			{task: "finish", schedule: "Varnished clear", part: 4},
		}
	}
	return []step{
		{task: "clean", supply: "Degreaser", part: 1}, repair,
		{task: "sand", supply: "Sandpaper, 220 grit", part: 4},
		{task: "finish", supply: "Shellac, dewaxed", coats: "3", passes: 3, part: 4},
		{task: "wax", supply: "Paste wax", part: 1},
	}
}

// work writes what was done to a job up to the books' end: fetching it, the
// steps of its path with their supplies and hours, parts, and trips.
func (m *maker) work(j *job) {
	if m.chance(600) && j.how != "client" {
		m.trip(j, j.got, "pick up", m.pick("estate sale", "thrift shop", "moving sale"))
	}
	path := m.path()
	days := j.finished.DaysSince(j.started)
	quarters := j.kind.quarters * len(j.pieces)
	for i, s := range path {
		on := j.started.AddDays(days * i / len(path))
		m.use(j, s, on)
		part := max(1, quarters*s.part*m.between(8, 12)/120)
		m.hours(j, on, part, s.task)
	}
	if m.chance(700) {
		m.hours(j, j.finished.AddDays(1), 2, "photograph and list")
	}
	if m.chance(400) {
		cost := m.amount(2, 25)
		m.add("Parts", j.started, row{"bought_on": j.started.String(), "pieces": j.cell,
			"what": m.pick("wooden knob", "drawer pulls, 8", "hinges", "shelf pins, 16"), "cost": cost.String(),
			"tax_paid": taxOf(cost).String(), "from": "hardware store", "receipt": m.receipt()})
	}
	if m.chance(20) {
		m.add("Parts", j.started, row{"bought_on": j.started.String(), "pieces": j.cell, "what": "new cane seat",
			"cost": m.amount(30, 80).String(), "type": "outside work", "from": "caner", "receipt": m.receipt()})
	}
}

// hours writes bench time, split where it would not fit into a day.
func (m *maker) hours(j *job, on calendar.Date, quarters int, task string) {
	for ; quarters > 0; quarters -= 32 {
		now := min(quarters, 32)
		if m.add("Hours", on, row{"worked_on": on.String(), "pieces": j.cell, "hours": hundredths(25 * now), "task": task}) {
			m.needHours(on.InMonth(), now)
		}
		on = on.AddDays(1)
	}
}

// use writes what a step puts on, and notes what that takes off the shelf.
func (m *maker) use(j *job, s step, on calendar.Date) {
	r := row{"used_on": on.String(), "pieces": j.cell, "supply": s.supply, "schedule": s.schedule, "coats": s.coats}
	if s.amount > 0 {
		r["amount"] = hundredths(s.amount)
	} else if m.chance(60) {
		r["area"] = hundredths(j.area * len(j.pieces) / 2)
	}
	if !m.add("Uses", on, r) {
		return
	}
	area := j.area * len(j.pieces)
	for _, line := range schedules {
		if line.schedule == s.schedule && s.schedule != "" {
			m.byName[line.supply].need[on.InMonth()] += area * line.passes
		}
	}
	if of := m.byName[s.supply]; of != nil && s.amount > 0 {
		of.need[on.InMonth()] += s.amount * of.coverage
	} else if of != nil {
		of.need[on.InMonth()] += area * max(1, s.passes)
	}
}

// trip writes a drive for a job.
func (m *maker) trip(j *job, on calendar.Date, purpose, to string) {
	r := row{"on": on.String(), "miles": hundredths(m.between(20, 300) * 10), "purpose": purpose, "to": to,
		"pieces": j.cell}
	if m.chance(100) {
		r["tolls"] = m.amount(1, 6).String()
	}
	m.add("Trips", on, r)
}

// shop writes what is the shop's own, month by month. What a larger shop has
// more of grows with its pieces: twelve and a half a month are the sample's.
func (m *maker) shop() {
	often := max(1, m.size.Pieces/150)
	for month := m.first; month <= LastMonth; month++ {
		m.rents(month)
		for range 4 * often {
			on := m.day(month)
			group := m.pick("advertising", "office", "utilities", "repairs", "small tools", "other")
			m.add("Expenses", on, row{"paid_on": on.String(), "what": group + ", sundry", "group": group,
				"amount": m.amount(5, 60).String(), "receipt": m.receipt()})
			if m.chance(700) {
				on = m.day(month)
				m.add("Trips", on, row{"on": on.String(), "miles": hundredths(m.between(30, 200) * 10), "purpose": "supplies",
					"to": "hardware and paint stores"})
			}
		}
		for range 3 * often {
			on := m.day(month)
			m.add("Hours", on, row{"worked_on": on.String(), "hours": hundredths(25 * m.between(2, 8)),
				"task": "restock and tidy booth"})
		}
		m.received(month)
	}
	for year := m.first.Year(); year <= LastMonth.Year(); year++ {
		m.yearly(year)
	}
}

// rents writes what is paid each month whatever is sold.
func (m *maker) rents(month calendar.Month) {
	on := month.First().AddDays(4)
	m.add("Expenses", on, row{"paid_on": on.String(), "what": "booth rent", "group": "booth rent", "amount": "65.00",
		"channel": booth, "receipt": m.receipt()})
	m.add("Expenses", on, row{"paid_on": on.String(), "what": "storage unit", "group": "storage", "amount": "40.00",
		"receipt": m.receipt()})
	if month.Of()%3 == 1 {
		m.add("Expenses", on, row{"paid_on": on.String(), "what": "business policy, quarter", "group": "insurance",
			"amount": "93.00", "receipt": m.receipt()})
	}
}

// received writes payouts and other income of a month, and sales tax sent in.
func (m *maker) received(month calendar.Month) {
	for _, channel := range []string{online, booth} {
		gross, on := m.gross[channelMonth{channel, month - 1}], month.First().AddDays(4)
		if net := gross*87/100 - 6500; net > 0 {
			m.add("Payouts", on, row{"paid_on": on.String(), "channel": channel, "amount": net.String(),
				"through": (month - 1).Last().String(),
				"rent":    map[string]string{booth: "65.00"}[channel]})
		}
	}
	if m.chance(300) {
		on := m.day(month)
		m.add("Other income", on, row{"got_on": on.String(), "what": "brass odds to the scrap yard", "group": "scrap",
			"amount": m.amount(5, 30).String()})
	}
	quarter := m.tax[month-3] + m.tax[month-2] + m.tax[month-1]
	if on := month.First().AddDays(17); month.Of()%3 == 1 && quarter > 0 {
		m.add("Tax paid", on, row{"paid_on": on.String(), "period": "quarter to " + (month - 1).String(),
			"amount": (quarter * 98 / 100).String(),
			"kept":   (quarter - quarter*98/100).String()})
	}
}

// yearly writes equipment and the channels' statements.
func (m *maker) yearly(year int) {
	may := calendar.MonthOf(year, 5)
	for i, what := range []string{"random-orbit sander", "shop vacuum", "bar clamps, set of four"} {
		on := m.day(may + calendar.Month(2*i))
		m.add("Equipment", on, row{"bought_on": on.String(), "what": what, "cost": m.amount(60, 240).String(),
			"life": m.pick("at once", "5", "7"), "receipt": m.receipt()})
	}
	for _, channel := range []string{online, booth} {
		var gross money.Cents
		for month := calendar.MonthOf(year, 1); month.Year() == year; month++ {
			gross += m.gross[channelMonth{channel, month}]
		}
		m.add("Statements", may.First(), row{"year": may.First().String()[:4], "channel": channel,
			"gross": max(0, gross).String()})
	}
}
