package piece

import (
	"cmp"
	"maps"
	"math/big"
	"slices"
	"strings"

	"piecebook/ledger/calendar"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/cells"
	"piecebook/report/page"
	"piecebook/report/words"
)

// stop is a day at which a stretch of a piece's time ends and the next begins.
type stop struct {
	name string // of the day: got
	next string // of the stretch after it: waiting
	on   calendar.Date
}

// bench is the stretch of work.
const bench = "at the bench"

// stops are the piece's days up to the period's end, as far as they are written
// down; where the day it was started is not, the first day of work on it, and
// with work of no known day none. Of a piece that is still here the period's
// last day is the last.
func stops(in *report.Input, p figures.Piece) []stop {
	rec, end := p.Record, in.Month.To.Last()
	got, started := stop{"got", "waiting", rec.GotOn}, stop{"started", bench, rec.StartedOn}
	if started.on.IsZero() {
		started = stop{"first worked on", bench, in.FirstWork(rec)}
	}
	if started.on.IsZero() && in.WorkedOn(rec.ID) {
		got.next = "waiting and at the bench"
	}
	out := []stop{got, started, {"finished", "to list", rec.FinishedOn}, {"listed", "listed", rec.ListedOn}}
	switch {
	case p.Status == "sold":
		out = append(out, stop{"sold", "", p.SoldOn})
	case p.Status == "in stock", p.Status == "client":
		out = append(out, stop{"at the end of " + in.Month.To.Name(), "", end})
	default:
		if r := removal(in, p); r != nil {
			out = append(out, stop{p.Status, "", r.On})
		}
	}
	return slices.DeleteFunc(out, func(s stop) bool { return s.on.IsZero() || s.on.After(end) })
}

// timeline is the piece's time in stretches between its days. Days out of their
// order are shown, without stretches that would run backward.
func timeline(in *report.Input, p figures.Piece) page.Timeline {
	days := stops(in, p)
	still := p.Status == "in stock" || p.Status == "client"
	var out page.Timeline
	at := func(s stop) float64 { return float64(s.on.DaysSince(days[0].on)) }
	for i, s := range days {
		label := s.name + " " + in.Day(s.on)
		if still && i == len(days)-1 {
			label = in.Day(s.on)
		}
		out.Days = append(out.Days, page.Moment{Label: label, At: at(s)})
		if i == 0 || !days[i-1].on.Before(s.on) {
			continue
		}
		before := days[i-1]
		name := words.Plural(s.on.DaysSince(before.on), "day", "days") + " " + before.next
		if still && i == len(days)-1 {
			name += " so far"
		}
		out.Stretches = append(out.Stretches, page.Stretch{Label: name, From: at(before), To: at(s),
			Strong: before.next == bench})
	}
	if !slices.IsSortedFunc(days, func(a, b stop) int { return a.on.Compare(b.on) }) {
		out.Stretches = nil
		slices.SortStableFunc(out.Days, func(a, b page.Moment) int { return int(a.At - b.At) })
	}
	return out
}

// task is the hours of one task.
type task struct {
	name  string
	hours *big.Rat
}

// How many tasks are named one by one, on paper and in a sentence.
const mostTasks, fewTasks = 8, 5

// tasks are the piece's hours by task up to the period's end, the most first;
// beyond so many the rest together.
func tasks(in *report.Input, p figures.Piece, most int) []task {
	byTask := map[string]*big.Rat{}
	for _, h := range in.OfPiece(p.Record.ID).Hours {
		if h.Part != nil {
			name := cmp.Or(h.Task, "no task named")
			byTask[name] = new(big.Rat).Add(money.OrZero(byTask[name]), h.Part)
		}
	}
	var out []task
	for _, name := range slices.Sorted(maps.Keys(byTask)) {
		out = append(out, task{name, byTask[name]})
	}
	slices.SortStableFunc(out, func(a, b task) int { return b.hours.Cmp(a.hours) })
	if len(out) > most {
		rest := task{words.Plural(len(out)-most+1, "other task", "other tasks"), new(big.Rat)}
		for _, x := range out[most-1:] {
			rest.hours.Add(rest.hours, x.hours)
		}
		out = append(out[:most-1], rest)
	}
	return out
}

// timeTable is the piece's hours by task, each with its bar.
func timeTable(in *report.Input, p figures.Piece) []page.Block {
	list := tasks(in, p, mostTasks)
	if len(list) == 0 {
		return []page.Block{page.Heading{Text: "Time by task", Level: 1}, page.Paragraph{Text: "No hours are written down."}}
	}
	bars := page.Bars{Caption: "Time by task", Heads: [2]string{"", "Hours"}}
	for _, x := range list {
		length, _ := x.hours.Float64()
		bars.Rows = append(bars.Rows, page.Bar{Label: x.name, Figure: cells.Hours(x.hours), Value: length, Pale: true})
	}
	bars.Rows = append(bars.Rows, page.Bar{Label: "All hours", Figure: cells.Hours(p.Hours), Style: page.Total})
	return []page.Block{bars}
}

// timeWords is timeTable as a sentence; blank without hours.
func timeWords(in *report.Input, p figures.Piece) string {
	var text []string
	for _, x := range tasks(in, p, fewTasks) {
		text = append(text, x.name+" "+money.Fixed(x.hours, 2))
	}
	if len(text) == 0 {
		return ""
	}
	return "Hours: " + strings.Join(text, ", ") + "; in all " + money.Fixed(money.OrZero(p.Hours), 2) + "."
}
