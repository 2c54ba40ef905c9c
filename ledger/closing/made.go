package closing

import (
	"bufio"
	"bytes"
	"cmp"
	"encoding/json"
	"fmt"
	"io"
	"iter"
	"maps"
	"slices"

	"piecebook/ledger/calendar"
	"piecebook/ledger/money"
)

// MadeFile remembers in the folder of an open month's reports what they were
// made from. MadeSchema names its form, which is that of a closed month's file
// with fewer members: schema, month, program, fingerprint, figures, records, sha256.
const (
	MadeFile   = "made-from.json"
	MadeSchema = "piecebook/made-from/1"
)

// Made is what a month's reports were last made from.
type Made struct {
	Month       calendar.Month
	Program     string
	Fingerprint string          // of the files that were read
	Figures     json.RawMessage // figures.json
	// Records are those that counted by its end, gathered or read only when they
	// are asked for; ErrAltered.
	Records func() (iter.Seq[Line], error)
}

// WriteMade writes a made-from.json.
func WriteMade(to io.Writer, m *Made) error {
	var figures bytes.Buffer
	if err := json.Compact(&figures, m.Figures); err != nil {
		return err
	}
	records, err := m.Records()
	if err != nil {
		return err
	}
	_, err = encode(to, []member{{"schema", MadeSchema}, {"month", m.Month}, {"program", m.Program},
		{"fingerprint", m.Fingerprint},
		{"figures", json.RawMessage(figures.Bytes())}, {"records", listOf(records)}})
	return err
}

// ReadMade reads a made-from.json as far as its records, which are most of it and
// are read with the whole file when they are asked for; only then its checksum is
// looked at. ErrAltered, ErrNewer.
func ReadMade(file io.Reader, whole func() ([]byte, error)) (*Made, error) {
	var head []byte
	for lines := bufio.NewReader(file); !bytes.HasSuffix(head, []byte("\n\"records\": [\n")); {
		line, err := lines.ReadBytes('\n')
		if head = append(head, line...); err != nil {
			return nil, ErrAltered
		}
	}
	var f struct {
		Schema      string          `json:"schema"`
		Month       calendar.Month  `json:"month"`
		Program     string          `json:"program"`
		Fingerprint string          `json:"fingerprint"`
		Figures     json.RawMessage `json:"figures"`
	}
	switch err := json.Unmarshal(append(head, "]}"...), &f); {
	case err != nil:
		return nil, ErrAltered
	case f.Schema != MadeSchema:
		return nil, ErrNewer
	}
	records := func() (iter.Seq[Line], error) {
		data, err := whole()
		if err != nil {
			return nil, err
		}
		var f struct {
			Records []Line `json:"records"`
		}
		_, err = decode(data, MadeSchema, &f)
		return slices.Values(f.Records), err
	}
	return &Made{f.Month, f.Program, f.Fingerprint, f.Figures, records}, nil
}

// Since is what is otherwise with a month since its reports were made.
type Since struct {
	Month   calendar.Month
	Amounts []Amount // figures that differ, net profit first; none: no money moved
	Pieces  int      // whose book cost or profit differs
	Differences
	Was, Is string // versions of the program
	// Rewritten says that files were written again, in another form or to other ends,
	// with every record as it was.
	Rewritten bool
}

// Money says that figures differ.
func (s *Since) Money() bool { return len(s.Amounts) > 0 || s.Pieces > 0 }

// Nothing says that all is as it was.
func (s *Since) Nothing() bool {
	return !s.Money() && len(s.Changes) == 0 && s.Rows == 0 && s.Was == s.Is && !s.Rewritten
}

// RulesChanged says that figures differ where no record does.
func (s *Since) RulesChanged() bool { return s.Money() && len(s.Changes) == 0 }

// Largest is the figure to tell first; nil where none differs.
func (s *Since) Largest() *Amount {
	if len(s.Amounts) == 0 {
		return nil
	}
	return &s.Amounts[0]
}

// SinceMade compares a month as it was made with what the records now give.
// The same program reads the same records from the same files.
func SinceMade(was, is *Made) (Since, error) {
	s := Since{Month: was.Month, Was: was.Program, Is: is.Program}
	s.Amounts, s.Pieces = Differing(was.Figures, is.Figures)
	if was.Fingerprint == is.Fingerprint && was.Program == is.Program && !s.Money() {
		return s, nil
	}
	before, err := was.Records()
	if err != nil {
		return Since{}, err
	}
	now, err := is.Records()
	if err != nil {
		return Since{}, err
	}
	s.Differences = Compare(slices.Collect(before), slices.Collect(now), was.Month)
	s.Rewritten = was.Fingerprint != is.Fingerprint && len(s.Changes) == 0 && s.Rows == 0
	return s, nil
}

// Part is where an amount stands in figures.json.
type Part string

// The parts whose amounts are compared.
const (
	InStatement Part = "statement"
	InExpenses  Part = "expenses"
	InStock     Part = "stock"
	InShelf     Part = "shelf"
	InTaxLines  Part = "tax lines" // of a year
)

// Amount is one figure as it was and as it is.
type Amount struct {
	Part    Part
	Name    string // its key, or an expense group
	Was, Is money.Cents
}

// By is how much it moved.
func (a Amount) By() money.Cents { return a.Is - a.Was }

// Hours are the hours of a closed month's pieces by piece, as its figures have them:
// decimals, rounded to four places. Figures that cannot be read give none.
func (m *Month) Hours() map[string]string {
	var f struct {
		Pieces []struct{ Piece, Hours string }
	}
	_ = json.Unmarshal(m.Figures, &f)
	out := make(map[string]string, len(f.Pieces))
	for _, p := range f.Pieces {
		out[p.Piece] = p.Hours
	}
	return out
}

// Differing is the figures of two figures.json that differ: the statement's and,
// of a year, the form's lines, what stock and shelf hold, and how many pieces stand otherwise. The
// net profit comes first, then by how much they moved.
func Differing(was, is json.RawMessage) ([]Amount, int) {
	a, b := amountsOf(was), amountsOf(is)
	var out []Amount
	all := maps.Clone(a.amounts)
	maps.Copy(all, b.amounts)
	for k := range all {
		if a.amounts[k] != b.amounts[k] {
			out = append(out, Amount{k.part, k.name, a.amounts[k], b.amounts[k]})
		}
	}
	first := func(x Amount) int {
		if x.Part == InStatement && x.Name == "net_profit" {
			return 0
		}
		return 1
	}
	slices.SortFunc(out, func(x, y Amount) int {
		return cmp.Or(cmp.Compare(first(x), first(y)), -cmp.Compare(x.By().Abs(), y.By().Abs()), cmp.Compare(x.Part, y.Part),
			cmp.Compare(x.Name, y.Name))
	})
	pieces := 0
	named := maps.Clone(a.pieces)
	maps.Copy(named, b.pieces)
	for id := range named {
		if a.pieces[id] != b.pieces[id] {
			pieces++
		}
	}
	return out, pieces
}

type amountKey struct {
	part Part
	name string
}

// comparableFigures is what is compared of a figures.json.
type comparableFigures struct {
	amounts map[amountKey]money.Cents
	pieces  map[string]string
}

// amountsOf reads figures.json as far as it is compared; what cannot be read
// is not there.
func amountsOf(data json.RawMessage) comparableFigures {
	var f struct {
		Statement map[string]json.RawMessage `json:"statement"`
		Stock     map[string]money.Cents     `json:"stock"`
		Shelf     []struct {
			Closing money.Cents `json:"closing"`
		} `json:"shelf"`
		TaxLines []struct {
			Line   string      `json:"line"`
			Amount money.Cents `json:"amount"`
		} `json:"tax_lines"`
		Pieces []struct {
			Piece    string       `json:"piece"`
			BookCost money.Cents  `json:"book_cost"`
			Profit   *money.Cents `json:"profit"`
			After    *money.Cents `json:"profit_after_overhead"`
		} `json:"pieces"`
	}
	out := comparableFigures{map[amountKey]money.Cents{}, map[string]string{}}
	if json.Unmarshal(data, &f) != nil {
		return out
	}
	for name, raw := range f.Statement {
		var cents money.Cents
		if json.Unmarshal(raw, &cents) == nil {
			out.amounts[amountKey{InStatement, name}] = cents
		}
	}
	var groups map[string]money.Cents
	if json.Unmarshal(f.Statement["expenses"], &groups) == nil {
		for name, cents := range groups {
			out.amounts[amountKey{InExpenses, name}] = cents
		}
	}
	out.amounts[amountKey{InStock, "closing"}] = f.Stock["closing"]
	for _, l := range f.Shelf {
		out.amounts[amountKey{InShelf, "closing"}] += l.Closing
	}
	for _, l := range f.TaxLines {
		out.amounts[amountKey{InTaxLines, l.Line}] = l.Amount
	}
	for _, p := range f.Pieces {
		profit := func(c *money.Cents) string {
			if c == nil {
				return "-"
			}
			return c.String()
		}
		out.pieces[p.Piece] = fmt.Sprint(p.BookCost, profit(p.Profit), profit(p.After))
	}
	return out
}
