// Package shopsim makes the records of invented shops of which the truth is
// known: what every use really took, and which uses the owner forgot to write
// down. The same seed gives the same shop. Only tests import it; what a shop
// looks like is invented, without an outside source.
package shopsim

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
)

// Shop says how a shop is run.
type Shop struct {
	Seed      uint64
	Months    int
	Pieces    int        // finished each month
	Forgotten float64    // the part of use lines that is not written down
	Schedules bool       // Pieces has each piece's schedule
	CountEach int        // every so many months each supply is counted; 0: never
	LabelOff  [2]float64 // least and most that a stated coverage is of the true one; zero: 0.6 to 1.6
}

// Books are the shop's records and its truth.
type Books struct {
	Files map[string][]byte
	Lacks map[string][]string  // by piece, the supplies that were used and not written down
	Month map[string]int       // by piece, the month it was finished, from 1
	Took  map[string][]float64 // by supply and month, containers that were truly used
}

// supply is one on the shelf: its group, its price, and what a container of it
// truly does in sq ft.
type supply struct {
	name, group string
	price, does float64
}

var shelf = []supply{
	{"Stripper", "stripper", 24, 40}, {"Cleaner", "cleaner", 11, 150}, {"Discs", "abrasive", 19, 180}, {"Filler", "filler", 9, 60},
	{"Primer", "primer", 21, 90}, {"Paint", "paint", 32, 110}, {"Stain", "stain", 14, 120}, {"Topcoat", "topcoat", 27, 125}, {"Wax", "wax", 18, 160},
}

// step is one supply of a schedule: how often a piece has it, and in how many coats.
type step struct {
	supply string
	often  float64
	coats  int
}

// schedules: what belongs to one is on nearly every piece, the rest now and then.
var schedules = map[string][]step{
	"painted": {{"Cleaner", .97, 1}, {"Discs", .97, 2}, {"Primer", .97, 1}, {"Paint", .99, 2}, {"Topcoat", .97, 2}, {"Filler", .4, 1}, {"Stripper", .2, 1}},
	"clear":   {{"Stripper", .97, 1}, {"Discs", .97, 2}, {"Stain", .97, 1}, {"Topcoat", .97, 3}, {"Filler", .4, 1}, {"Cleaner", .5, 1}},
	"waxed":   {{"Stripper", .97, 1}, {"Discs", .97, 2}, {"Stain", .97, 1}, {"Wax", .97, 2}, {"Cleaner", .5, 1}},
}

// kinds: how often each is finished by its usual schedule; else by the other.
var kinds = []struct {
	name, usual, other string
	often              float64
}{
	{"dresser", "painted", "clear", .8}, {"side chair", "clear", "waxed", .7}, {"dining table", "clear", "painted", .9},
	{"nightstand", "painted", "clear", .9}, {"bench", "waxed", "painted", .7},
}

// useSpread is the standard deviation of what one use takes, as a share.
const useSpread = 0.12

// run is a shop being simulated.
type run struct {
	Shop
	*rand.Rand
	out   Books
	left  map[string]float64
	words map[string]*strings.Builder
}

// Make simulates a shop from January 2025 on. Cans are bought one at a time when
// the one in use does not do.
func Make(s Shop) Books {
	if s.LabelOff == [2]float64{} {
		s.LabelOff = [2]float64{0.6, 1.6}
	}
	r := &run{Shop: s, Rand: rand.New(rand.NewPCG(s.Seed, 0x2545f4914f6cdd1d)), left: map[string]float64{},
		words: map[string]*strings.Builder{},
		out: Books{Files: map[string][]byte{}, Lacks: map[string][]string{}, Month: map[string]int{},
			Took: map[string][]float64{}}}
	r.table("pieces", "piece,kind,got_on,price,area,schedule,finished_on")
	r.table("supplies", "supply,group,container,coverage")
	r.table("purchases", "bought_on,supply,containers,cost")
	r.table("schedules", "schedule,supply,coats")
	r.table("uses", "used_on,pieces,supply,coats")
	r.table("hours", "worked_on,pieces,hours")
	r.table("counts", "counted_on,supply,left")
	for _, x := range shelf {
		off := s.LabelOff[0] + (s.LabelOff[1]-s.LabelOff[0])*r.Float64()
		r.line("supplies", x.name, x.group, "1 each", fmt.Sprintf("%.1f", x.does*off))
		r.out.Took[x.name] = make([]float64, s.Months)
		r.buy(x, "2025-01-01")
	}
	for _, name := range []string{"painted", "clear", "waxed"} {
		for _, st := range schedules[name] {
			r.line("schedules", name, st.supply, fmt.Sprint(st.coats))
		}
	}
	for m := 1; m <= s.Months; m++ {
		r.month(m)
	}
	for name, text := range r.words {
		r.out.Files["records/"+name+".csv"] = []byte(text.String())
	}
	return r.out
}

func (r *run) table(name, header string) {
	r.words[name] = &strings.Builder{}
	r.line(name, header)
}

func (r *run) line(table string, cells ...string) {
	r.words[table].WriteString(strings.Join(cells, ",") + "\n")
}

func day(m, d int) string { return fmt.Sprintf("%d-%02d-%02d", 2025+(m-1)/12, (m-1)%12+1, d) }

func (r *run) buy(x supply, on string) {
	r.left[x.name]++
	r.line("purchases", on, x.name, "1", fmt.Sprintf("%.2f", x.price))
}

// month finishes the month's pieces and counts what is due.
func (r *run) month(m int) {
	type use struct {
		on          int
		piece, name string
		area        float64
		coats       int
	}
	var uses []use
	for n := range r.Pieces {
		id := fmt.Sprintf("M%02dP%d", m, n+1)
		k := kinds[r.IntN(len(kinds))]
		schedule := k.usual
		if r.Float64() > k.often {
			schedule = k.other
		}
		area := math.Round(8 + 40*r.Float64())
		written := ""
		if r.Schedules {
			written = schedule
		}
		r.line("pieces", id, k.name, day(m, 1), "40", fmt.Sprintf("%.0f", area), written, day(m, 28))
		r.line("hours", day(m, 2+r.IntN(20)), id, fmt.Sprintf("%.1f", 2+6*r.Float64()))
		r.out.Month[id] = m
		for _, st := range schedules[schedule] {
			if r.Float64() < st.often {
				uses = append(uses, use{2 + r.IntN(25), id, st.supply, area, st.coats})
			}
		}
	}
	slices.SortStableFunc(uses, func(a, b use) int { return a.on - b.on })
	for _, u := range uses {
		x := shelf[slices.IndexFunc(shelf, func(s supply) bool { return s.name == u.name })]
		took := u.area * float64(u.coats) / x.does * math.Max(0.2, 1+useSpread*r.NormFloat64())
		for r.left[x.name] < took {
			r.buy(x, day(m, u.on))
		}
		r.left[x.name] -= took
		r.out.Took[x.name][m-1] += took
		if r.Float64() < r.Forgotten {
			r.out.Lacks[u.piece] = append(r.out.Lacks[u.piece], x.name)
			continue
		}
		r.line("uses", day(m, u.on), u.piece, x.name, fmt.Sprint(u.coats))
	}
	for i, x := range shelf {
		if r.CountEach > 0 && (m+i)%r.CountEach == 0 {
			r.line("counts", day(m, 28), x.name, fmt.Sprintf("%.3f", r.left[x.name]))
		}
	}
}
