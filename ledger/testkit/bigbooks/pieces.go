package bigbooks

import (
	"fmt"

	"piecebook/ledger/calendar"
	"piecebook/ledger/money"
)

// job is a piece, or a few alike that are done and sold together as a set.
type job struct {
	pieces     []string
	cell       string // what the pieces stand as in other tables: one number, or the set's name
	kind       *kind
	how        string
	lot        string
	price      money.Cents // each
	area       int         // each, in hundredths of a square foot
	got        calendar.Date
	started    calendar.Date
	finished   calendar.Date
	left       calendar.Date // sold or removed; zero: still here
	asking     money.Cents   // for all
	oldFinish  string
	hasSurface bool
}

// kind is a kind of furniture with what is usual for it.
type kind struct {
	name       string
	area       int // square feet
	price      int // paid, whole
	asking     int
	quarters   int // of an hour at the bench
	setOf      int // how many make a set; 1: none
	oneIn      int // of so many jobs, for choosing
	adjectives []string
}

// kinds are those of a usual shop: figures invented, common practice.
var kinds = []*kind{
	{"nightstand", 12, 18, 115, 18, 2, 14, []string{"pine", "maple", "one-drawer"}},
	{"dresser", 30, 55, 350, 44, 1, 18, []string{"four-drawer", "waterfall", "oak"}},
	{"side table", 12, 15, 125, 16, 1, 14, []string{"mission", "drop-leaf", "round"}},
	{"coffee table", 16, 25, 160, 20, 1, 12, []string{"walnut", "glass-top", "low"}},
	{"side chair", 15, 8, 70, 16, 4, 8, []string{"ladder-back", "spindle", "cane"}},
	{"bookcase", 60, 25, 195, 26, 1, 8, []string{"plywood", "oak", "narrow"}},
	{"desk", 33, 45, 290, 36, 1, 10, []string{"school", "kneehole", "writing"}},
	{"chest", 20, 35, 185, 24, 1, 8, []string{"cedar", "blanket", "pine"}},
	{"dining table", 35, 60, 380, 40, 1, 6, []string{"trestle", "round", "farm"}},
	{"mirror", 4, 10, 85, 8, 1, 6, []string{"gilt", "oval", "bevelled"}},
}

func (m *maker) kind() *kind {
	all := 0
	for _, k := range kinds {
		all += k.oneIn
	}
	at := m.IntN(all)
	for _, k := range kinds {
		if at -= k.oneIn; at < 0 {
			return k
		}
	}
	panic("bigbooks: the chances of the kinds do not add up")
}

// acquire makes all jobs, spread evenly over the months, and the lots.
func (m *maker) acquire() {
	made := 0
	for month := m.first; month <= LastMonth; month++ {
		until := m.size.Pieces * int(month-m.first+1) / 12
		for made < until {
			j := m.job(made, month)
			made += len(j.pieces)
			m.jobs = append(m.jobs, j)
		}
	}
	for i := 0; i+3 <= len(m.jobs); i += 3 {
		if m.chance(80) {
			m.lotOf(m.jobs[i : i+3])
		}
	}
}

// job makes one job whose first piece has the number after made.
func (m *maker) job(made int, month calendar.Month) *job {
	k := m.kind()
	n := 1
	if k.setOf > 1 && m.chance(200) {
		n = k.setOf
	}
	j := &job{kind: k, got: m.day(month), how: "bought"}
	for i := range n {
		j.pieces = append(j.pieces, fmt.Sprintf("P%06d", made+i+1))
	}
	j.cell = j.pieces[0]
	if n > 1 {
		j.cell = "Set " + j.pieces[0]
	}
	switch at := m.IntN(1000); {
	case at < 50:
		j.how = "free"
	case at < 70:
		j.how = "own"
	case at < 90:
		j.how = "traded"
	case at < 120:
		j.how = "client"
	}
	if j.how == "bought" || j.how == "traded" {
		j.price = m.amount(k.price*2/3, k.price*3/2)
	}
	j.area = m.between(k.area*80, k.area*125)
	j.hasSurface = m.chance(200)
	j.oldFinish = m.pick("painted", "clear", "clear", "none")
	j.asking = money.Cents(len(j.pieces)*m.between(k.asking*9/10, k.asking*12/10)) * 100
	j.started = j.got.AddDays(m.between(2, 20))
	j.finished = j.started.AddDays(m.between(5, 35))
	return j
}

// lotOf makes bought jobs one lot.
func (m *maker) lotOf(jobs []*job) {
	var sum money.Cents
	for _, j := range jobs {
		if j.how != "bought" || j.got.InMonth() != jobs[0].got.InMonth() {
			return
		}
		sum += j.price * money.Cents(len(j.pieces))
	}
	got := jobs[0].got
	name := "Lot " + jobs[0].pieces[0]
	for _, j := range jobs {
		late := got.DaysSince(j.got)
		j.lot, j.got, j.started, j.finished = name, got, j.started.AddDays(late), j.finished.AddDays(late)
	}
	m.add("Lots", got, row{
		"lot": name, "got_on": got.String(), "from": m.pick("barn clear-out", "auction house", "school surplus"),
		"price": sum.String(), "fees": (sum / 10).String(), "pickup": m.amount(0, 25).String(),
		"share_by": "worth", "receipt": m.receipt(),
	})
}

// write writes a job's rows of Pieces and Surfaces, once its life is known.
func (m *maker) write(j *job) {
	for _, id := range j.pieces {
		r := row{
			"piece": id, "kind": j.kind.name, "got_on": j.got.String(), "old_finish": j.oldFinish,
			"description": m.pick(j.kind.adjectives...) + " " + j.kind.name + m.pick("", ", one repair", ", veneer chipped",
				", water rings on top"),
			"from": m.pick("estate sale", "thrift shop", "moving sale", "curb"),
			"made": fmt.Sprint(m.between(1890, 1990)), "condition": m.pick("good", "fair", "rough"),
			"receipt": m.receipt(),
		}
		if len(j.pieces) > 1 {
			r["set"] = j.cell
		}
		switch {
		case j.lot != "":
			r["lot"], r["worth"] = j.lot, (j.price * 3 / 2).String()
		case j.how != "bought":
			r["how"] = j.how
		}
		if j.lot == "" && j.price > 0 {
			r["price"] = j.price.String()
			if m.chance(400) {
				r["tax_paid"] = taxOf(j.price).String()
			}
			if m.chance(200) {
				r["pickup"] = m.amount(5, 30).String()
			}
		}
		if j.hasSurface {
			m.surfaces(id, j)
		} else {
			r["area"] = hundredths(j.area)
		}
		m.dates(r, j)
		m.add("Pieces", j.got, r)
	}
}

// dates fills in how far the work had come by the books' end.
func (m *maker) dates(r row, j *job) {
	for _, step := range []struct {
		column string
		on     calendar.Date
	}{{"started_on", j.started}, {"finished_on", j.finished}, {"listed_on", j.finished.AddDays(1)}} {
		early := j.left.IsZero() || !step.on.After(j.left)
		if early && step.on.InMonth() <= LastMonth {
			r[step.column] = step.on.String()
		}
	}
	if j.how != "client" && r["listed_on"] != "" {
		r["asking"] = (j.asking / money.Cents(len(j.pieces))).String()
	}
}

// surfaces measures a piece in four lines that come to about its area.
func (m *maker) surfaces(id string, j *job) {
	side := 12
	for side*side*2 < j.area*144/100 {
		side++
	}
	for _, r := range []row{
		{"part": "top", "shape": "rectangle", "width": fmt.Sprint(side), "height": fmt.Sprint(side), "faces": "1"},
		{"part": "sides", "shape": "rectangle", "count": "2", "width": fmt.Sprint(side / 2), "height": fmt.Sprint(side * 3 / 4)},
		{"part": "legs", "shape": "square taper", "count": "4", "height": "14", "top": "2", "bottom": "1 1/4"},
		{"part": "edges", "shape": "rectangle", "count": "4", "width": fmt.Sprint(side), "height": "1", "relief": "1.2"},
	} {
		r["piece"] = id
		m.add("Surfaces", j.got, r)
	}
}
