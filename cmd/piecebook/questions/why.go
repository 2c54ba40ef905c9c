package questions

import (
	"fmt"
	"strings"

	"piecebook/cmd/piecebook/cli"
	"piecebook/cmd/piecebook/terminal"
	"piecebook/ledger/fault"
	"piecebook/ledger/figures"
	"piecebook/report"
	"piecebook/report/month"
	"piecebook/report/page"
	sheets "piecebook/report/piece"
	"piecebook/report/trace"
	"piecebook/report/words"
	"piecebook/templates"
)

type WhyCmd struct {
	Full bool     `help:"Of opening and closing stock, every record of each piece and supply, not its sum."`
	Of   []string `arg:"" help:"PIECE [FIGURE] [2026-03]; or: a figure of the month as its report names it; supply NAME [FIGURE]; statement LINE, stock LINE or hours, of a month or a year; tied up; line NUMBER 2026, of the tax year."`
}

// answer is what a figure is made of: postings, or what a ratio is worked out of.
type answer struct {
	title  string
	detail figures.Detail
	groups []trace.Group // blank: the postings as they are
	piece  string
	ratio  *figures.Ratio
	hours  []figures.HoursRecord // of the period: the figure is no money
	cell   *page.Cell            // a figure of a page that is none of these
	others []string              // the heads of the columns that its row has too
}

// Run prints the postings under a figure.
func (k WhyCmd) Run(c *cli.Call, w terminal.Console) error {
	if strings.EqualFold(k.Of[0], "line") {
		return k.line(c, w)
	}
	args, from, month := cli.SplitPeriod(k.Of)
	b, err := c.Ready(w, month)
	if err != nil {
		return err
	}
	if b.From = from; from == 0 {
		b.From = b.Month
	}
	a, err := answerTo(b, args)
	if err != nil {
		return err
	}
	if c.JSON {
		return cli.WriteJSON(w, answerJSON(b, a))
	}
	in, err := b.Input()
	if err != nil {
		return err
	}
	if b.From < b.Month {
		in.Period = period(b)
	}
	return a.print(c, w, in, func(id figures.ID) figures.Detail { return pieceDetail(b, a.piece, id) })
}

func (a answer) print(c *cli.Call, w terminal.Console, in report.Input, detail func(figures.ID) figures.Detail) error {
	var d page.Document
	switch {
	case a.cell != nil:
		d = trace.Figure(in, *a.cell)
		if len(a.others) > 0 {
			d.Sections[0].Blocks = append(d.Sections[0].Blocks, page.Paragraph{Text: fmt.Sprintf("Its other columns: "+
				"%s. To ask for one: %s %s", strings.Join(a.others, "; "), c.ToType("why"), quoted(a.title+" "+a.others[0]))})
		}
	case a.hours != nil:
		d = trace.Hours(in, a.title, a.hours)
	case a.ratio != nil:
		d = trace.Ratio(in, a.title, *a.ratio, detail)
	case len(a.groups) > 0:
		d = trace.Grouped(in, a.title, a.groups, a.detail.Total)
	default:
		d = trace.Doc(in, a.title, a.detail.Postings, a.detail.Total)
	}
	_, err := fmt.Fprint(w.Out, w.BoldFirst(c.Text(d), 1))
	return err
}

func pieceDetail(b *cli.Books, piece string, id figures.ID) figures.Detail {
	got, _ := figures.DetailOf(b.Ledger, figures.OfPiece, piece, id, b.Month)
	return got
}

// detailOf is what is under the figure that somebody names; false where the scope
// has none of the name.
func detailOf(b *cli.Books, of figures.Scope, subject, figure string) (figures.Detail, bool) {
	return figures.DetailOver(b.Ledger, of, subject, words.Asked(of, figure), b.From, b.Month)
}

// period is what was asked about: the month, or the year where several months are.
func period(b *cli.Books) string {
	if b.From < b.Month {
		return fmt.Sprint(b.Month.Year())
	}
	return b.Month.Name()
}

// answerTo finds the figure asked for.
func answerTo(b *cli.Books, args []string) (answer, error) {
	rest := strings.Join(args[1:], " ")
	switch strings.ToLower(args[0]) {
	case "supply":
		return supplyAnswer(b, args[1:])
	case "statement":
		if a, ok := statementAnswer(b, rest); ok {
			return a, nil
		}
		return answer{}, noFigure("The statement has no line", rest, statementNames(b))
	case "stock":
		if got, ok := detailOf(b, figures.OfStock, "", rest); ok {
			return answer{title: fmt.Sprintf("Pieces at book cost in %s: %s", period(b), rest), detail: got}, nil
		}
		return answer{}, noFigure("The roll-forward of pieces has no line", rest, words.AllNamed(figures.OfStock))
	}
	ids, err := b.Named(args[:1])
	if err != nil {
		return unnamed(b, args, err)
	}
	if len(ids) > 1 {
		return answer{}, cli.Usagef("%s stands for %d pieces; ask for one of them: %s.", args[0], len(ids),
			strings.Join(ids, ", "))
	}
	return pieceAnswer(b, ids[0], rest)
}

// pieceAnswer is a piece's figure: a sum, or what a ratio is worked out of.
func pieceAnswer(b *cli.Books, id, figure string) (answer, error) {
	if figure == "" {
		figure = "book_cost"
		for _, p := range figures.All(b.Ledger) {
			if p.Record.ID == id && p.Profit != nil {
				figure = "profit"
			}
		}
	}
	asked := words.Asked(figures.OfPiece, figure)
	title := fmt.Sprintf("%s: %s up to the end of %s", id, words.Named(figures.OfPiece, asked), b.Month.Name())
	if got, ok := detailOf(b, figures.OfPiece, id, figure); ok {
		return answer{title: title, detail: got, piece: id}, nil
	}
	if ratio, ok := figures.RatioOf(b.Ledger, id, string(asked), b.Month); ok {
		return answer{title: title, piece: id, ratio: &ratio}, nil
	}
	if a, err := printed(b, id, figure); err != nil || a.title != "" {
		return a, err
	}
	return answer{}, noFigure("A piece has no figure", figure, words.AllNamed(figures.OfPiece))
}

// printed is the figure beside a label as pages print it: of a piece, on its
// sheet or in its rows of the month's report; else anywhere in that. The title is
// blank where there is none.
func printed(b *cli.Books, piece, label string) (answer, error) {
	in, err := b.Input()
	if err != nil {
		return answer{}, err
	}
	found, ok := page.Cell{}, false
	var others []string
	if whole := month.Doc(in); piece == "" {
		if found, ok = trace.Labelled(whole, label); ok {
			others = trace.OtherColumns(whole, label)
		} else if found, ok = shelfFigure(b, whole, label); !ok {
			if rows := trace.RowsUnder(whole, label); len(rows) > 0 {
				return answer{}, cli.Usagef("%s of what? Type: %s %s. There are: %s.", label, b.ToType("why"),
					quoted(rows[0]+" "+label), strings.Join(rows, "; "))
			}
		}
	} else if found, ok = trace.Labelled(sheets.Sheets(in, []string{piece}), label); !ok {
		found, ok = trace.Labelled(whole, piece+" "+label)
	}
	if !ok {
		return answer{}, nil
	}
	if rate, is := found.Of.(report.Rate); is {
		return pieceAnswer(b, rate.Piece, rate.Name)
	}
	return answer{title: label, cell: &found, others: others}, nil
}

// shelfFigure is a figure of a supply's row on the month's report, asked for by
// the supply's name and the column's head.
func shelfFigure(b *cli.Books, whole page.Document, label string) (page.Cell, bool) {
	for _, s := range supplyNames(b) {
		if len(label) <= len(s)+1 || !strings.EqualFold(label[:len(s)+1], s+" ") {
			continue
		}
		if found, ok := trace.InRow(whole, report.SupplyAnchor(s), label[len(s)+1:]); ok {
			return found, true
		}
	}
	return page.Cell{}, false
}

// statementAnswer is a line of the period's statement, or its hours.
func statementAnswer(b *cli.Books, line string) (answer, bool) {
	if strings.EqualFold(line, "hours") {
		return answer{title: "Hours of " + period(b), hours: figures.HoursOver(b.Ledger.Books, b.From, b.Month)}, true
	}
	id := words.Asked(figures.OfStatement, line)
	got, ok := figures.DetailOver(b.Ledger, figures.OfStatement, "", id, b.From, b.Month)
	name := words.Named(figures.OfStatement, id)
	if !ok {
		name = plainName(line)
		got, ok = figures.GroupDetail(b.Ledger, words.AskedGroup(name), b.From, b.Month)
	}
	if !ok {
		return answer{}, false
	}
	a := answer{title: fmt.Sprintf("Statement of %s: %s", period(b), name), detail: got}
	if id == figures.LineTiedUp {
		a.title = "Tied up at the end of " + b.Month.Name()
		pieces, shelf := trace.Group{Title: "Pieces at book cost", Netted: true}, trace.Group{Title: "Supplies on the shelf",
			Netted: true}
		for _, p := range got.Postings {
			if p.Piece != "" {
				pieces.Postings = append(pieces.Postings, p)
			} else {
				shelf.Postings = append(shelf.Postings, p)
			}
		}
		a.groups = []trace.Group{pieces, shelf}
	}
	return a, true
}

// statementNames are the statement's lines with the groups of expenses.
func statementNames(b *cli.Books) []string {
	out := words.AllNamed(figures.OfStatement)
	seen := map[string]bool{}
	for _, e := range b.Read.Books.Expenses {
		if !seen[e.Group] {
			seen[e.Group] = true
			out = append(out, words.Group(e.Group))
		}
	}
	return out
}

// unnamed is the answer where the first word names no piece: `why net profit`
// can only mean the statement's line. Else whatever is meant may be near.
func unnamed(b *cli.Books, args []string, err error) (answer, error) {
	whole := strings.Join(args, " ")
	if a, ok := statementAnswer(b, whole); ok {
		return a, nil
	}
	if a, err := printed(b, "", whole); err != nil || a.title != "" {
		return a, err
	}
	var same []string
	for _, p := range b.Read.Books.Pieces {
		if templates.KindKey(p.Kind) == templates.KindKey(whole) {
			same = append(same, p.ID)
		}
	}
	if len(same) > 0 {
		return answer{}, cli.Usagef("%q is a kind, not a piece. Ask for one of its pieces, as in: piecebook why "+
			"%s. They are: %s.", whole, same[0], strings.Join(same, ", "))
	}
	for _, s := range supplyNames(b) {
		if strings.EqualFold(s, whole) {
			return supplyAnswer(b, args)
		}
	}
	if strings.ContainsAny(args[0], "0123456789") {
		return answer{}, err
	}
	if near := fault.Nearest(args[0], []string{"supply", "statement", "stock", "line"}); near != "" && len(args) > 1 {
		return answer{}, cli.Usagef("There is no piece %q. Did you mean: piecebook why %s %s", args[0], near,
			strings.Join(args[1:], " "))
	}
	if near := fault.Nearest(whole, plainNames(statementNames(b))); near != "" && len(whole) > 3 {
		return answer{}, cli.Usagef("There is no piece, lot or set %q. Did you mean the statement's line: piecebook "+
			"why statement %s", whole, near)
	}
	return answer{}, cli.Usagef("No figure of %s is called %q, and no piece, lot, set or supply. Type it as it is "+
		"printed on the month's report, or a piece and a figure of its sheet, as in: piecebook why P012 supplies", period(b),
		whole)
}

func supplyNames(b *cli.Books) []string {
	var known []string
	for _, s := range b.Read.Books.Supplies {
		known = append(known, s.Name)
	}
	return known
}

// supplyAnswer takes a supply's name, which may have blanks, and a figure.
func supplyAnswer(b *cli.Books, args []string) (answer, error) {
	known := supplyNames(b)
	if len(args) == 0 {
		return answer{}, cli.Usage("Say which supply: piecebook why supply NAME. There are: " + strings.Join(known, ", ") +
			".")
	}
	for n := len(args); n > 0; n-- {
		name, figure := strings.Join(args[:n], " "), strings.Join(args[n:], " ")
		for _, s := range known {
			if !strings.EqualFold(s, name) {
				continue
			}
			if figure == "" {
				figure = "closing"
			}
			got, ok := detailOf(b, figures.OfShelf, s, figure)
			if !ok {
				return answer{}, noFigure("A supply has no figure", figure, words.AllNamed(figures.OfShelf))
			}
			return answer{title: fmt.Sprintf("%s: %s, over all time up to the end of %s", s, figure, b.Month.Name()),
				detail: got}, nil
		}
	}
	name := strings.Join(args, " ")
	return answer{}, cli.Usagef("There is no supply %q.%s", name, nearSupply(args, known))
}

// nearSupply is the nearest supply, whether or not a figure stands behind its
// name.
func nearSupply(args, known []string) string {
	for n := len(args); n > 0; n-- {
		rest := strings.Join(args[n:], " ")
		if n < len(args) && fault.Nearest(rest, figures.Names(figures.OfShelf)) == "" {
			continue
		}
		name := strings.Join(args[:n], " ")
		near := fault.Nearest(name, known)
		if near == "" {
			// `Stripper` is enough to mean `Stripper, gel`.
			first := map[string]string{}
			var heads []string
			for _, s := range known {
				head, _, _ := strings.Cut(s, ",")
				if first[head] == "" {
					first[head] = s
					heads = append(heads, head)
				}
			}
			near = first[fault.Nearest(name, heads)]
		}
		if near != "" {
			return " The nearest is: piecebook why supply " + strings.TrimSpace(quoted(near)+" "+rest)
		}
	}
	if len(known) == 0 {
		return " No supply is read; piecebook check tells why."
	}
	return " There are: " + strings.Join(known, ", ") + "."
}

func plainName(figure string) string { return strings.ReplaceAll(figure, "_", " ") }

func plainNames(names []string) []string {
	out := make([]string, len(names))
	for i, n := range names {
		out[i] = plainName(n)
	}
	return out
}

func noFigure(what, name string, known []string) error {
	if name == "" {
		return cli.Usagef("Say which one. There are: %s.", strings.Join(known, "; "))
	}
	return cli.Usagef("%s %q.%s There are: %s.", what, name, cli.Suggest(plainName(name), known),
		strings.Join(known, "; "))
}
