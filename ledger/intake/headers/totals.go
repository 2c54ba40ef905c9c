package headers

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

	"piecebook/ledger/fault"
	"piecebook/ledger/intake/columns"
	"piecebook/ledger/intake/sheets"
	"piecebook/ledger/intake/values"
	"piecebook/ledger/measure"
	"piecebook/ledger/money"
	"piecebook/templates"
)

// HeadingLeast is how many columns a table must have for a row with one cell
// filled to be no record.
const HeadingLeast = 3

// notRecord says that a row is plainly no record, which is reported as a note: one
// of sums, a month's heading, or the header again. A record needs a name or a
// day, so nothing that could be one is skipped.
func (r *Reader) notRecord(b *Block, l sheets.Line) bool {
	if b.Broken || l.Broken || len(b.Columns) < HeadingLeast && !columns.SaysTotal(l) {
		return false
	}
	at := b.sheet.Place()
	at.Row = l.Number
	says := b.saysOther(l)
	switch {
	case says != columns.MayBeRecord:
		r.noteOther(b, l, at, says)
	case r.isSum(b, l):
		b.sums = append(b.sums, l)
		r.problems.Add(fault.Problem{Code: fault.CodeTotalsRow, Note: true, Place: at, Found: sheets.Shortened(l.Shown()),
			Why:         "This row holds totals and no record, so it was skipped.",
			AsksNothing: true, Fix: "It may stay. If it is a record, give it its own name and day."})
	case r.isUnclearSum(b, l):
		r.problems.Add(fault.Problem{Code: fault.CodeSumUnclear, Place: at, Found: sheets.Shortened(l.Shown()),
			Why: "By its words this row is a sum, but its numbers are not what the rows above come to.",
			Fix: "If it is a sum, clear its other cells or correct it. If it is a record, say in its words what it is for."})
	case headerAgain(b, l):
		r.problems.Add(fault.Problem{Code: fault.CodeHeaderAgain, Note: true, Place: at, Found: sheets.Shortened(l.Shown()),
			Why:         "This row is the column names again, so it was skipped.",
			AsksNothing: true, Fix: "It may stay."})
	case sheets.Filled(l.Cells) <= 2 && len(columns.Needed(b.Table)) > 1 && values.IsPeriod(l.Shown()):
		r.problems.Add(fault.Problem{Code: fault.CodeHeadingRow, Note: true, Place: at, Found: sheets.Shortened(l.Shown()),
			Why:         "This row holds nothing but a heading, so it was skipped.",
			AsksNothing: true, Fix: "It may stay. If it is a record, fill in its other cells."})
	case b.isRemark(l):
		r.problems.Add(fault.Problem{Code: fault.CodeHeadingRow, Note: true, Place: at, Found: sheets.Shortened(l.Shown()),
			Why:         "This row holds nothing but a remark, so it was skipped.",
			AsksNothing: true, Fix: "It may stay. If it is a record, fill in its other cells."})
	default:
		return false
	}
	return true
}

// isUnclearSum says that a row is called a sum in a cell that is read, has more than a sum
// beside it, and its numbers are not those of one.
func (r *Reader) isUnclearSum(b *Block, l sheets.Line) bool {
	return b.says(l, columns.IsTotal) && r.sumKind(b, l) == sumPerhaps && r.agrees(b, l) == sumsDiffer
}

// isSum says that a row is a sum: its label says so and all else in it is
// numbers; or its numbers are formulas over the rows above and it has neither
// name nor day; or its label is a month, or has a day or words beside it, and
// its numbers are what the rows above come to; or it has nothing but such numbers,
// of several rows.
func (r *Reader) isSum(b *Block, l sheets.Line) bool {
	switch kind := r.sumKind(b, l); kind {
	case sumPlain:
		return true
	case sumPerhaps, sumNumbers:
		return (kind == sumPerhaps || len(b.Records) > 1) && r.agrees(b, l) == sumsAgree
	}
	return false
}

// How much a row is like a sum.
type sumLike int

const (
	noSum      sumLike = iota
	sumPerhaps         // if its numbers are those of a sum
	sumNumbers         // if they are, and sum several rows
	sumPlain
)

func (r *Reader) sumKind(b *Block, l sheets.Line) sumLike {
	label, period, others, numbers, formulas := columns.SaysTotal(l), false, 0, 0, 0
	part := !label && b.says(l, columns.MayBeTotal)
	for _, c := range b.Columns {
		cell := b.sheet.Cell(l, c.Index)
		switch {
		case cell.IsUnsaved() && cell.SumsAbove():
			numbers++
			formulas++
		case cell.Text == "" || columns.IsTotal(cell.Text) || part && columns.MayBeTotal(cell.Text):
		case holdsNumber(c.Field.Cell):
			if !r.isNumber(cell) {
				return noSum
			}
			numbers++
			if cell.SumsAbove() {
				formulas++
			}
		case values.IsPeriod(cell.Text):
			period = true
		case !label && !part:
			return noSum // words or a day beside it: only what says that it is a total may still be one
		default:
			others++
		}
	}
	switch {
	case label && others == 0:
		return sumPlain
	case numbers == 0:
		return noSum
	case others == 0 && formulas == numbers:
		return sumPlain
	case label || period && others == 0 && !r.isDay(b, l):
		return sumPerhaps
	case others == 0 && !period || part:
		return sumNumbers
	}
	return noSum
}

// says is what a question finds of one of the cells with words that are read of a row.
func (b *Block) says(l sheets.Line, is func(text string) bool) bool {
	for _, c := range b.Columns {
		if c.Field.Cell != templates.Date && !holdsNumber(c.Field.Cell) && is(l.Text(c.Index)) {
			return true
		}
	}
	return false
}

// isDay says that a row has a day of its own.
func (r *Reader) isDay(b *Block, l sheets.Line) bool {
	for _, c := range b.Columns {
		if cell := b.sheet.Cell(l, c.Index); c.Field.Cell == templates.Date && cell.Text != "" && values.IsDate(cell) {
			return true
		}
	}
	return false
}

// holdsNumber says that a kind of cell holds numbers.
func holdsNumber(kind templates.Cell) bool {
	switch kind {
	case templates.Money, templates.SignedMoney, templates.Number, templates.SignedNumber, templates.Whole,
		templates.HoursOfAll, templates.HoursOfDay, templates.Amount, templates.Coverage, templates.Percent:
		return true
	}
	return false
}

// isNumber says that a cell is a number of some kind.
func (r *Reader) isNumber(c sheets.Cell) bool {
	style := values.PlainStyle(r.settings, c.InBook)
	text := strings.TrimSuffix(c.Text, "%")
	_, noMoney := measure.Money(text, style)
	_, noHours := measure.ReadHours(text, style)
	return noMoney == nil || noHours == nil || values.IsRaw(text)
}

// Whether a sum is what it sums.
type sumAgreement int

const (
	sumsUnknown sumAgreement = iota // some cell of the rows is no number
	sumsAgree
	sumsDiffer
)

// agrees holds the numbers of a row to what rows above it come to: those since
// one of the last sums, all of them, or the sums; where none is above, those below. Rows
// that are crossed out and balances from elsewhere may be in it or not.
func (r *Reader) agrees(b *Block, l sheets.Line) sumAgreement {
	out := sumsUnknown
	for _, c := range b.Columns {
		switch agreement, _ := r.columnAgrees(b, c, l); {
		case agreement == sumsDiffer:
			return sumsDiffer
		case agreement == sumsAgree:
			out = sumsAgree
		}
	}
	return out
}

// sincesMost is of how many sums above another it may sum up what is below: the total of a
// slip has its subtotal above it.
const sincesMost = 3

// columnAgrees is agrees for one column of money, hours or distances; nearest is what the
// rows since the last sum come to.
func (r *Reader) columnAgrees(b *Block, c Column, l sheets.Line) (sumAgreement, *big.Rat) {
	want, ok := r.figureOf(b.sheet, c, l)
	if !ok || want == nil {
		return sumsUnknown, nil
	}
	above, sums, below := new(big.Rat), new(big.Rat), new(big.Rat)
	sinces := []*big.Rat{new(big.Rat)} // since each of the last sums, the last one first
	rows, since := 0, 0
	add := func(line sheets.Line, to ...*big.Rat) bool {
		x, ok := r.figureOf(b.sheet, c, line)
		if x != nil {
			for _, t := range to {
				t.Add(t, x)
			}
		}
		return ok
	}
	for _, line := range b.sheet.Lines[1:] {
		switch {
		case line.Number == l.Number || columns.IsExample(b.sheet, line) || headerAgain(b, line) ||
			isAmong(b.tender, line) || isAmong(b.carried, line):
		case line.Number > l.Number:
			if r.sumKind(b, line) != sumPlain && !add(line, below) {
				return sumsUnknown, nil
			}
		case isAmong(b.sums, line) || r.sumKind(b, line) == sumPlain:
			if since > 0 {
				sinces = append([]*big.Rat{new(big.Rat)}, sinces[:min(len(sinces), sincesMost-1)]...)
			}
			since = 0
			add(line, sums)
		default:
			rows, since = rows+1, since+1
			if !add(line, append(sinces, above)...) {
				return sumsUnknown, nil
			}
		}
	}
	candidates := append(r.slipAbove(b, c, l), append(sinces, above, sums)...)
	if rows == 0 {
		candidates = []*big.Rat{below}
	}
	crossedSince, crossed, carried := new(big.Rat), new(big.Rat), new(big.Rat)
	for _, line := range b.crossed {
		add(line, crossed)
		if last := b.lastSum(l.Number); line.Number < l.Number && line.Number > last {
			add(line, crossedSince)
		}
	}
	for _, line := range b.carried {
		if line.Number < l.Number {
			add(line, carried)
		}
	}
	for _, x := range candidates {
		for _, besides := range []*big.Rat{new(big.Rat), crossedSince, crossed, carried} {
			if new(big.Rat).Add(x, besides).Cmp(want) == 0 {
				return sumsAgree, want
			}
		}
	}
	switch {
	case new(big.Rat).Add(above, r.earlier(b, c)).Cmp(want) == 0:
		return sumsAgree, want
	case since == 0 && rows > 0 && len(candidates) == len(sinces)+2:
		return sumsDiffer, above
	}
	return sumsDiffer, candidates[0]
}

// earlier is what a column came to in the sheets of its table that were read before: a
// grand total has it in.
func (r *Reader) earlier(b *Block, c Column) *big.Rat {
	sum := new(big.Rat)
	for _, other := range r.blocks[b.Table.Name] {
		for _, l := range other.Records {
			if x, _ := r.figureOf(other.sheet, other.Columns[c.Field.Name], l); x != nil {
				sum.Add(sum, x)
			}
		}
	}
	return sum
}

// isAmong says that a line is one of some.
func isAmong(lines []sheets.Line, l sheets.Line) bool {
	return slices.ContainsFunc(lines, func(x sheets.Line) bool { return x.Number == l.Number })
}

// lastSum is the row of the last sum above a row; 0 where there is none.
func (b *Block) lastSum(row int) (last int) {
	for _, l := range b.sums {
		if l.Number < row {
			last = max(last, l.Number)
		}
	}
	return last
}

// figureOf is a cell's money, hours or distance; nil where the column holds none of
// them or the cell is blank, and not ok where it cannot be read.
func (r *Reader) figureOf(s *sheets.Sheet, c Column, l sheets.Line) (x *big.Rat, ok bool) {
	cell := s.Cell(l, c.Index)
	hours := c.Field.Cell == templates.HoursOfAll || c.Field.Cell == templates.HoursOfDay
	switch {
	case cell.Text == "":
		return nil, true
	case c.Field.Name == "miles":
		x, refusal := values.Number(cell, r.settings)
		return x, refusal == nil
	case !hours && !columns.IsMoney(c.Field.Cell):
		return nil, true
	case hours:
		x, refusal := values.Hours(cell, r.settings)
		return x, refusal == nil
	}
	cents, ok := r.cellMoney(s, c, l)
	return big.NewRat(int64(cents), 100), ok
}

// noteSums notes sums that are not what they sum: a row was left out of one of
// the two, or is read as something else.
func (r *Reader) noteSums(b *Block) {
	for _, l := range b.sums {
		for _, c := range b.inOrder() {
			agreement, rows := r.columnAgrees(b, c, l)
			if agreement != sumsDiffer {
				continue
			}
			want, _ := r.figureOf(b.sheet, c, l)
			at := b.sheet.Place()
			at.Row = l.Number
			p := fault.Problem{Code: fault.CodeSumDiffers, Note: true, Place: at.At(c.Header),
				Found: sheets.Shortened(b.sheet.Cell(l, c.Index).Text),
				Why: fmt.Sprintf("This sum says %s, and the rows it stands by come to %s as they were read.",
					figureText(want, c), figureText(rows, c)),
				Fix: "See whether a row is missing, was read as something else, or was changed after the sum was typed."}
			if columns.IsMoney(c.Field.Cell) {
				off := new(big.Rat).Sub(want, rows)
				p.MoneyCents = money.RoundHalfEven(off.Mul(off.Abs(off), big.NewRat(100, 1))).Int64()
			}
			r.problems.Add(p)
		}
	}
}

// figureText is a figure of figureOf as it is reported.
func figureText(x *big.Rat, c Column) string {
	if columns.IsMoney(c.Field.Cell) {
		return money.Round(new(big.Rat).Mul(x, big.NewRat(100, 1))).Grouped()
	}
	return money.AtMost(x, 2)
}

// headerAgain says that a row repeats the header, as sheets put together from
// several have it.
func headerAgain(b *Block, l sheets.Line) bool {
	same := 0
	for i, text := range l.Cells {
		if text = strings.TrimSpace(text); text == "" {
			continue
		}
		if i >= len(b.headers) || values.Fold(b.headers[i]) != values.Fold(text) {
			return false
		}
		same++
	}
	return same > 1
}
