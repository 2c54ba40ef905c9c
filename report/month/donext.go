package month

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"piecebook/ledger"
	"piecebook/ledger/calendar"
	"piecebook/ledger/closing"
	"piecebook/ledger/fault"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
	"piecebook/report"
	"piecebook/report/cells"
	"piecebook/report/page"
	"piecebook/report/words"
)

// What Do next tells at most, of all and of pieces long here, and from how many
// days on a piece is long here.
const (
	mostTasks      = 8
	mostLongHere   = 3
	longHereDays   = 90
	mostNamedToBuy = 5
)

// taskKind orders tasks of different kinds.
type taskKind int

// The kinds, in the order they are shown.
const (
	inNoFigure taskKind = iota - 1 // money in the records that could not be placed
	obligation                     // to a client, the state, or the shop itself
	countThese
	buyThese
	repriceOrFinish
	lookAtNote
)

// task is one thing to do, its words beginning with the verb or with what it is about.
type task struct {
	kind  taskKind
	words string
	since calendar.Date // of an obligation
	cents money.Cents
	is    string // what the amount is: owed, to come, tied up
	of    page.Ref
	look  place
}

// place is where on these pages more stands, as it is named there.
type place struct{ name, anchor string }

// The places that tasks name.
var (
	atChecks      = place{"Checks", report.TiesAnchor}
	atCorrections = place{earlierTitle, correctedAnchor}
	atClients     = place{"Client work", clientsAnchor}
	atStatement   = place{"Statement", statementAnchor}
	atPayouts     = place{"Payouts", payoutsAnchor}
	atShelf       = place{"The shelf", shelfAnchor}
	atStock       = place{"Stock", stockAnchor}
)

// doNext is what to do next: what could not be placed, then obligations, the oldest first, then by money what
// to count, to buy, to reprice or finish, and the notes.
func doNext(in *report.Input) []page.Block {
	tasks := tasksOf(in)
	if len(tasks) == 0 {
		return nil
	}
	t := page.Table{Caption: "Do next", NoHead: true, Whole: true,
		Columns: page.Heads{}.Wide(1, "").Text("").Money("").Text("")}
	for _, x := range tasks[:min(mostTasks, len(tasks))] {
		amount, is := page.Empty(), ""
		if x.cents != 0 {
			amount, is = cells.Money(x.cents).Opens(x.of), x.is
		}
		t.Add(page.Text(x.words), page.Text(is), amount, page.OnPage(x.look.name, x.look.anchor))
	}
	if n := len(tasks) - mostTasks; n > 0 {
		t.Note = words.Plural(n, "more stands", "more stand") + " on the pages named."
	}
	return []page.Block{t}
}

// tasksOf are all tasks in their order.
func tasksOf(in *report.Input) []task {
	out := slices.Concat(wrongChecks(in), givenOut(in), clientsWaiting(in), taxToPay(in), payoutTasks(in),
		countTasks(in), buyTasks(in), longHere(in), noteTasks(in))
	slices.SortStableFunc(out, func(a, b task) int {
		switch {
		case a.kind != b.kind || a.kind == repriceOrFinish:
			return cmp.Compare(a.kind, b.kind) // these stand in their order already
		case a.kind == obligation:
			return a.since.Compare(b.since)
		}
		return money.LargestFirst(a.cents, b.cents)
	})
	return out
}

// wrongChecks are checks with a difference, which only a defect leaves.
func wrongChecks(in *report.Input) []task {
	var out []task
	for _, t := range in.Month.TieOut {
		if t.Difference != 0 {
			out = append(out, task{words: "Tell the makers of this program that the check '" + t.Name + "' leaves a difference",
				cents: t.Difference, is: "difference", look: atChecks})
		}
	}
	return out
}

// givenOut are packs that were made and no longer hold, as one task, and files
// that have lost records since.
func givenOut(in *report.Input) []task {
	var out []task
	var changed []closing.Since
	var most money.Cents
	var of page.Ref
	shown := map[string]bool{}
	for _, s := range in.Earlier {
		if s.Money() {
			changed = append(changed, s)
		}
		if a := s.Largest(); a != nil && a.By().Abs() > most {
			most, of = a.By().Abs(), sincePack(in, s.Month, *a)
		}
		for _, l := range s.Lost {
			if !shown[l.File] {
				shown[l.File] = true
				out = append(out, task{words: words.PutBack(l), since: s.Month.Last(), look: atCorrections})
			}
		}
	}
	if len(changed) > 0 {
		out = append(out, task{words: words.GiveOutAgain(changed), since: changed[0].Month.Last(), cents: most,
			is: "differs by up to", of: of, look: atCorrections})
	}
	return out
}

// clientsWaiting are clients' pieces here, by the day they came.
func clientsWaiting(in *report.Input) []task {
	var out []task
	for _, p := range clientsHere(in) {
		verb := "Finish and hand over"
		if stage := in.Stage(p.Record); stage == "finished" || stage == "listed" {
			verb = "Hand over"
		}
		out = append(out, task{words: fmt.Sprintf("%s %s, a client's %s: %s here", verb, p.Record.ID, p.Record.Kind,
			words.Plural(in.Age(p), "day", "days")), since: p.Record.GotOn, cents: p.Held, is: "paid so far",
			of: in.LineOfPiece(p.Record.ID, figures.LineHeld), look: atClients})
	}
	return out
}

// taxToPay is the sales tax owed at the period's end, since the day of the
// oldest that is not paid over yet.
func taxToPay(in *report.Input) []task {
	owed := in.Month.Statement.SalesTaxOwed
	if owed <= 0 {
		return nil
	}
	var since calendar.Date
	left := owed
	for _, p := range slices.Backward(in.Postings) {
		if p.From == ledger.TaxOwed && p.Reason == ledger.ReasonTaxCollected && p.Month <= in.Month.To && left > 0 {
			since, left = p.Date, left-p.Cents
		}
	}
	text := "Pay over the sales tax collected"
	if !since.IsZero() {
		text += " since " + in.Day(since)
	}
	return []task{{words: text, since: since, cents: owed, is: "owed", of: ofStatement(in.Month, figures.LineSalesTaxOwed),
		look: atStatement}}
}

// payoutTasks are payouts that differ from their sales and those to come.
func payoutTasks(in *report.Input) []task {
	var out []task
	paid, open := payoutsOf(in)
	for _, p := range paid {
		if off := p.amount - p.due(); off != 0 {
			out = append(out, task{words: fmt.Sprintf("Ask %s why its payout of %s differs from its sales", p.channel,
				in.Day(p.on)), since: p.on, cents: off.Abs(), is: "difference", look: atPayouts})
		}
	}
	for _, p := range open {
		if p.left() > 0 {
			out = append(out, task{words: fmt.Sprintf("Look for the payout of %s for sales since %s", p.channel, in.Day(p.from)),
				since: p.from, cents: p.left(), is: "to come", of: p.dueOf(), look: atPayouts})
		}
	}
	return out
}

// countTasks is one line for all supplies that are to be counted.
func countTasks(in *report.Input) []task {
	var names []string
	of := report.SumOf("Cost in doubt until it is counted")
	for _, c := range in.Count {
		of.Plus(c.Supply.Name, c.AtStake, report.InWords(c.Supply.Name+": cost in doubt", fmt.Sprintf("%s charged to "+
			"pieces since %s by its coverage × %d %%, by which such coverages are usually off = %s.", c.Charged.Grouped(),
			c.Since.Name(), c.Off, c.AtStake.Grouped()), c.AtStake))
		names = append(names, c.Supply.Name)
	}
	if len(names) == 0 {
		return nil
	}
	return []task{{kind: countThese, words: "Count these: " + strings.Join(names, "; "), cents: of.Total(), of: of,
		is: "in doubt", look: atShelf}}
}

// buyTasks is one line for all supplies that are to be bought.
func buyTasks(in *report.Input) []task {
	list := toBuy(in)
	if len(list) == 0 {
		return nil
	}
	var names []string
	of := report.SumOf("A container of each, at its last price")
	for _, b := range list {
		of.Terms = append(of.Terms, report.Term{Label: b.supply, Cents: b.price, Of: b.of,
			Link: report.SupplyAnchor(b.supply)})
		names = append(names, b.supply)
	}
	text := "Buy " + strings.Join(names[:min(mostNamedToBuy, len(names))], "; ")
	if n := len(list) - mostNamedToBuy; n > 0 {
		text += fmt.Sprintf("; and %d more", n)
	}
	return []task{{kind: buyThese, words: text + " (a container each)", cents: of.Total(), is: "to spend", of: of,
		look: atShelf}}
}

// longHere are the pieces held for long, the dearest first, the rest of them in
// one line.
func longHere(in *report.Input) []task {
	long := in.Chosen(func(p figures.Piece) bool { return p.Status == "in stock" && in.Age(p) > longHereDays },
		func(a, b figures.Piece) int { return money.LargestFirst(a.BookCost, b.BookCost) })
	var out []task
	add := func(text string, c money.Cents, of page.Ref) {
		out = append(out, task{kind: repriceOrFinish, words: text, cents: c, is: "tied up", of: of, look: atStock})
	}
	for _, p := range long[:min(mostLongHere, len(long))] {
		verb, after := "Finish", in.Stage(p.Record)
		switch {
		case after == "listed":
			verb = "Reprice"
			if p.Record.Asking != nil {
				after += " at " + in.Spoken(*p.Record.Asking)
			}
		case after == "finished":
			verb, after = "List", "finished, not listed"
		}
		add(fmt.Sprintf("%s %s, %s: %d days here, %s", verb, p.Record.ID, p.Record.Kind, in.Age(p), after), p.BookCost,
			in.LineOfPiece(p.Record.ID, figures.LineBookCost))
	}
	if rest := long[len(out):]; len(rest) > 0 {
		of := in.LineOfAll("Book cost of the other pieces held for long", rest, figures.LineBookCost)
		add(fmt.Sprintf("Reprice or finish %s held over %d days", words.Plural(len(rest), "more piece", "more pieces"),
			longHereDays), of.Total(), of)
	}
	return out
}

// noteTasks are the notes that ask for something: what to type, and where. Those
// that ask for the same are one task with their sum.
func noteTasks(in *report.Input) []task {
	type asked struct {
		code  fault.Code
		words string
		apart int // 0, or the number of a note that is joined with no other
	}
	var ask []int
	for i, n := range in.Notes {
		if !n.AsksNothing {
			ask = append(ask, i)
		}
	}
	var out []task
	for _, list := range report.GroupsOf(ask, func(i int) asked {
		n := in.Notes[i]
		if n.First || n.Fix == "" {
			return asked{n.Code, words.ToDo(n), i + 1}
		}
		return asked{n.Code, words.ToDo(n), 0}
	}) {
		out = append(out, noteTask(in, list))
	}
	return out
}

// noteTask is notes that ask for the same, by their places in the list, as one task.
func noteTask(in *report.Input, list []int) task {
	n := in.Notes[list[0]]
	number := in.NoteNumber(list[0])
	out := task{kind: lookAtNote, words: words.ToDo(n), cents: money.Cents(n.MoneyCents), is: "in doubt",
		of: in.NoteOf(list[0]), look: place{fmt.Sprintf("Note %d", number), report.NoteAnchor(list[0])}}
	if n.First {
		out.kind = inNoFigure
	}
	var found, about []string
	for _, i := range list {
		if text := in.Notes[i].Found; text != "" && !slices.Contains(found, fault.Quoted(text)) {
			found = append(found, fault.Quoted(text))
		}
	}
	if len(found) > 0 {
		about = append(about, fault.Few(found))
	}
	if where := words.Place(n.Place); where != "" {
		about = append(about, where)
	}
	if more := len(list) - 1; more > 0 {
		about = append(about, words.Plural(more, "more line", "more lines"))
		out.look.name = fmt.Sprintf("Note %d and %d more", number, more)
		sum := &report.Worked{Title: "Notes that ask for the same"}
		out.cents = 0
		for _, i := range list {
			cents := money.Cents(in.Notes[i].MoneyCents)
			out.cents += cents
			sum.Terms = append(sum.Terms, report.Term{Label: fmt.Sprintf("Note %d", in.NoteNumber(i)), Cents: cents,
				Of: in.NoteOf(i)})
		}
		sum.Cents, out.of = out.cents, sum
	}
	if len(about) > 0 {
		out.words += " (" + strings.Join(about, ", ") + ")"
	}
	return out
}

// sortedNames are a map's names in order.
func sortedNames[T any](m map[string]T) []string { return slices.Sorted(maps.Keys(m)) }
