package words

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"piecebook/ledger/calendar"
	"piecebook/ledger/closing"
	"piecebook/ledger/fault"
	"piecebook/ledger/figures"
	"piecebook/ledger/money"
)

// Amount names a figure of a month that is compared with another.
func Amount(a closing.Amount) string {
	switch a.Part {
	case closing.InStock:
		return "pieces in stock"
	case closing.InShelf:
		return "the shelf"
	case closing.InExpenses:
		return Group(a.Name)
	case closing.InTaxLines:
		return "line " + a.Name
	}
	return Figure(figures.ID(a.Name))
}

// Figure names a line of the statement or of a roll-forward within a sentence.
func Figure(id figures.ID) string { return strings.ReplaceAll(string(id), "_", " ") }

// Group names a group of expenses within a sentence, in American spelling: the
// records' own word for one is licences.
func Group(group string) string {
	switch group {
	case "":
		return "expenses of no group"
	case "licences":
		return "licenses"
	}
	return group
}

// AskedGroup is the records' name of a group that is asked for, in any spelling
// that pages have for it.
func AskedGroup(name string) string {
	if strings.EqualFold(name, Group("licences")) {
		return "licences"
	}
	return name
}

// WasIs is a figure as it was and as it is.
func WasIs(a closing.Amount) string {
	return fmt.Sprintf("%s was %s and would now be %s", Amount(a), a.Was.Grouped(), a.Is.Grouped())
}

// Happened says what happened to a record.
func Happened(c closing.Change, dayFirst bool) string {
	switch c.What {
	case closing.Added:
		return "added"
	case closing.Removed:
		return "removed"
	case closing.MovedInTime:
		return fmt.Sprintf("moved from %s to %s", written(c.Was.Cells[c.Was.DayIn], dayFirst),
			written(c.Is.Cells[c.Is.DayIn], dayFirst))
	}
	if len(c.Columns) == 0 {
		return "changed"
	}
	var out []string
	for _, column := range c.Columns {
		out = append(out, cell(column, c, dayFirst))
	}
	return "changed: " + strings.Join(out, "; ")
}

// written is a cell in standard form as it is printed: a day in words.
func written(cell string, dayFirst bool) string {
	if d, err := calendar.Parse(cell); err == nil {
		return d.Written(dayFirst)
	}
	return cell
}

// cell is one column as it was and as it is.
func cell(column string, c closing.Change, dayFirst bool) string {
	was, is := written(c.Was.Cells[column], dayFirst), written(c.Is.Cells[column], dayFirst)
	if column == "value" && c.Was.Table == closing.SettingsTable {
		column = c.Was.About
	}
	switch {
	case was == "":
		return fmt.Sprintf("%s is now %s, was blank", column, is)
	case is == "":
		return fmt.Sprintf("%s is now blank, was %s", column, was)
	}
	return fmt.Sprintf("%s %s, was %s", column, is, was)
}

// ChangedRecord names a changed record in a sentence: its table, what it is
// about, and its day.
func ChangedRecord(c closing.Change, dayFirst bool) string {
	l := c.Line()
	out := Capital(l.Table)
	if l.About != "" {
		out += ", " + l.About
	}
	if day := l.Cells[l.DayIn]; day != "" {
		out += ", " + written(day, dayFirst)
	}
	return out
}

// ChangesInShort counts changes by what happened: 2 records changed, 1 added.
func ChangesInShort(changes []closing.Change) string {
	counts := map[closing.What]int{}
	for _, c := range changes {
		counts[c.What]++
	}
	var out []string
	for _, what := range []closing.What{closing.Changed, closing.MovedInTime, closing.Added, closing.Removed} {
		switch n := counts[what]; {
		case n == 0:
		case len(out) == 0:
			out = append(out, fmt.Sprintf("%s %s", Plural(n, "record", "records"), what))
		default:
			out = append(out, fmt.Sprintf("%d %s", n, what))
		}
	}
	return List(out)
}

// SinceMade says of a month what the records now give otherwise, and through
// what, in one or two sentences.
func SinceMade(s closing.Since) string {
	var out []string
	switch a := s.Largest(); {
	case a != nil:
		out = append(out, fmt.Sprintf("%s would differ from its pack: %s.", s.Month.Name(), WasIs(*a)))
	case s.Pieces > 0:
		out = append(out, fmt.Sprintf("%s would differ from its pack: the costs of %s.", s.Month.Name(),
			Plural(s.Pieces, "piece", "pieces")))
	default:
		out = append(out, s.Month.Name()+" is as its pack says, to the cent.")
	}
	switch {
	case len(s.Changes) > 0:
		out = append(out, "Since it was made: "+ChangesInShort(s.Changes)+".")
	case s.RulesChanged() && s.Was != s.Is:
		out = append(out, fmt.Sprintf("No record changed; %s made it, this is %s.", s.Was, s.Is))
	case s.RulesChanged():
		out = append(out, "No record of it changed; what changed came through other months' records.")
	}
	if !s.Money() {
		out = append(out, elsewhere(s)...)
	}
	return strings.Join(out, " ")
}

// LostFile says that records of a file are gone since a month was made, and what
// to do.
func LostFile(l closing.LostFile, m calendar.Month) string {
	if l.Missing {
		return fmt.Sprintf("Nothing of %s counts any more: %s of it did when %s was made. If its lines are refused, "+
			"put them right; if it is gone or empty, and not on purpose, put it back from a copy.", l.File,
			Plural(l.Was, "record", "records"), m.Name())
	}
	return fmt.Sprintf("%s has lost %d of the %s that it held when %s was made. Put it back from a copy, if they "+
		"were not taken out on purpose.", l.File, l.Gone, Plural(l.Was, "record", "records"), m.Name())
}

// PutBack is the same as a thing to do.
func PutBack(l closing.LostFile) string {
	return fmt.Sprintf("Put back %s, if it was not changed on purpose: %d of %s are gone", l.File, l.Gone,
		Plural(l.Was, "record", "records"))
}

// monthNames names months within a sentence.
func monthNames(all []closing.Since) string {
	var names []string
	for _, s := range all {
		names = append(names, s.Month.Name())
	}
	return List(names)
}

// GiveOutAgain is what to do where packs that were made no longer hold.
func GiveOutAgain(all []closing.Since) string {
	return fmt.Sprintf("Make %s again, or close what was given out: the records have changed since", monthNames(all))
}

// OtherwiseInYear says for the preparer which months of the year would differ
// from their packs.
func OtherwiseInYear(all []closing.Since) string {
	return fmt.Sprintf("The records now give other figures for %s than the packs that were made. Where one was handed "+
		"on, hand on a new one; piecebook check tells what changed.", monthNames(all))
}

// CorrectedLater says that a closed year was corrected after it was closed.
func CorrectedLater(year int, in calendar.Month, net money.Cents) string {
	return fmt.Sprintf("What was closed for %d was corrected later: %s on the net profit, in %s. A licensed preparer "+
		"decides whether %d's return is to be amended.", year, net.Grouped(), in.Name(), year)
}

// YearOtherwise says that a year's reports, or the folder handed over, hold other
// figures than the records now give.
func YearOtherwise(year int, reports bool, amounts []closing.Amount, pieces int) string {
	what := "the costs of " + Plural(pieces, "piece", "pieces")
	if len(amounts) > 0 {
		what = WasIs(amounts[0])
	}
	if reports {
		return fmt.Sprintf("The cost records of %d that were made before differ from what the records now give: %s.",
			year, what)
	}
	return fmt.Sprintf("The folder handed over for %d differs from what the records now give: %s.", year, what)
}

// SinceLastMade says of a month that is being made again what changed since it
// was made before.
func SinceLastMade(s closing.Since) string {
	if s.Nothing() {
		return "Nothing has changed since it was last made."
	}
	what := "no figure changed"
	if a := s.Largest(); a != nil {
		what = fmt.Sprintf("%s was %s and is now %s", Amount(*a), a.Was.Grouped(), a.Is.Grouped())
	} else if s.Pieces > 0 {
		what = "the costs of " + Plural(s.Pieces, "piece", "pieces") + " changed"
	}
	out := "Since it was last made: " + what + "."
	if len(s.Changes) > 0 {
		out += " " + Capital(ChangesInShort(s.Changes)) + "."
	}
	return strings.Join(append([]string{out}, elsewhere(s)...), " ")
}

// PackOutdated says that the pack in a folder does not have the figures that a
// month is closed with, and the command that makes it again.
func PackOutdated(s closing.Since, folder, command string) string {
	what := "the costs of " + Plural(s.Pieces, "piece", "pieces") + " changed"
	if a := s.Largest(); a != nil {
		what = fmt.Sprintf("%s was %s and is %s", Amount(*a), a.Was.Grouped(), a.Is.Grouped())
	}
	return fmt.Sprintf("The pack in %s was made before the records changed: %s. Make it again: %s %s", folder, what,
		command, s.Month)
}

// elsewhere says what changed that moves no money.
func elsewhere(s closing.Since) []string {
	var out []string
	for _, from := range slices.Sorted(maps.Keys(s.Files)) {
		out = append(out, fmt.Sprintf("%s is now %s.", from, s.Files[from]))
	}
	switch {
	case s.Rows > 0:
		out = append(out, fmt.Sprintf("%s in another row or file.", Plural(s.Rows, "record stands", "records stand")))
	case s.Rewritten:
		out = append(out, "Files were saved again; no record changed.")
	}
	if s.Was != s.Is {
		out = append(out, fmt.Sprintf("%s made it, this is %s.", s.Was, s.Is))
	}
	return out
}

// CorrectionsLead says what the block of corrections is.
func CorrectionsLead(c *closing.Corrections) string {
	return fmt.Sprintf("Months up to %s are closed. What the records now say of them, less what was closed, stands "+
		"here, and in each line of the month that it counts in.", c.Last.Name()) + closedBy(c)
}

// closedBy says, where only the program changed since months were closed, by which they were.
func closedBy(c *closing.Corrections) string {
	if !c.RulesChanged() {
		return ""
	}
	return fmt.Sprintf(" No record changed: the months were closed by %s, and this is %s.", c.Versions[0], c.Versions[1])
}

// ReceiptsNotPlaced says that lines of a list of receipts are in no figure.
func ReceiptsNotPlaced(first fault.Place) string {
	return fmt.Sprintf("What lines of receipts are for is not known, the first at %s, so they are in no line: piecebook "+
		"check says what to type.", first.Short())
}

// OverTaxYear is for the preparer where corrections reach back over a tax year.
func OverTaxYear(year int, net money.Cents) string {
	return fmt.Sprintf("Corrections to closed months of %d stand in this year: %s on the net profit. A licensed preparer "+
		"decides whether %d's return is to be amended.", year, net.Grouped(), year)
}

// NoDraft says why there is no draft of a closed month.
func NoDraft(m calendar.Month) string {
	return fmt.Sprintf("%s is closed: its pack is made from what was closed, and there is no draft of it.", m.Name())
}

// ClosedFile says that a closed month's file cannot be used, and what may be done.
func ClosedFile(r *closing.Refused) string {
	return fmt.Sprintf("%s cannot be used: %v. Put back the file as it was, from a copy of this folder; nothing was made.",
		r.File, r.Err)
}

// The captions of the block of corrections.
const (
	CorrectionsCaption = "Corrections to closed months"
	CorrectedNet       = "Corrections on the net profit"
	ChangesCaption     = "Records changed since"
)

// CorrectedLine names a line that corrections count in.
func CorrectedLine(l figures.CorrectedLine) string {
	switch {
	case l.ID == figures.LineExpenses:
		return Capital(Group(l.Group))
	case l.Of == figures.OfStock:
		return "Pieces in stock, " + Figure(l.ID)
	case l.Of == figures.OfShelf:
		return "Shelf, " + Figure(l.ID)
	}
	return Capital(Figure(l.ID))
}

// ChangeLine is a changed record in one line: what it is, where it stands, what
// happened to it.
func ChangeLine(c closing.Change, dayFirst bool) string {
	return fmt.Sprintf("%s (%s): %s", ChangedRecord(c, dayFirst), c.Line().Place.Short(), Happened(c, dayFirst))
}

// Carries says that a month carries corrections, with what they add to its net profit.
func Carries(c *closing.Corrections, net money.Cents) string {
	return fmt.Sprintf("%s carries corrections to closed months: %s on the net profit.", c.Month().Name(), net.Grouped()) +
		closedBy(c)
}

// ReadOtherwise says that this version works a closed month out otherwise.
func ReadOtherwise(m calendar.Month, closedBy, now string) string {
	return fmt.Sprintf("figures.json of %s is as %s closed it; %s works some of it out differently. piecebook again "+
		"%s shows what.", m.Name(), closedBy, now, m)
}
