package templates

import "math/big"

// Payees is what payments to others must be reported of, by a year's limit.
type Payees struct {
	Kinds []PayeeKind
	// Words says what the records cannot tell, and Source on whose word.
	Words, Source string
	limits        []payeeLimit
}

// PayeeKind is payments of one kind, with the form that they go on.
type PayeeKind struct {
	What   string   `toml:"what"` // rent
	Form   string   `toml:"form"` // 1099-MISC
	Groups []string `toml:"groups"`
	// OutsideWork says that outside work on pieces is of this kind.
	OutsideWork bool `toml:"outside_work"`
}

type payeeLimit struct {
	from   int
	amount *big.Rat
	source string
}

// Limit is from what a payee's payments of one kind in a year are reported,
// with its source; nil where none is known.
func (p *Payees) Limit(year int) (amount *big.Rat, source string) {
	for _, l := range p.limits {
		if l.from <= year {
			amount, source = l.amount, l.source
		}
	}
	return amount, source
}

// Reports is above what a network of sellers must report a channel's gross:
// both limits must be passed. Zero where none is known.
type Reports struct {
	Gross         *big.Rat
	Sales         int
	Words, Source string
}

// Home is what the law takes for use of the home by the simplified method.
// Rate is money a square foot; nil: none is known.
type Home struct {
	Rate *big.Rat
	Most *big.Rat // square feet
	// Words, where not blank: of the simplified method, the regular one, of a
	// separate building, and of what stands among the shop's utilities.
	Line, Simplified, Regular, Separate, Utilities string
	Use                                            string // questions on how the space was used
	Source                                         string
	Ask                                            []string // what the regular method needs that no record has
}

// recordsFile is records-XX.toml as written.
type recordsFile struct {
	Sources struct {
		Words string `toml:"words"`
	} `toml:"sources"`
	Keep []struct {
		What   string `toml:"what"`
		Long   string `toml:"long"`
		Source string `toml:"source"`
	} `toml:"keep"`
	Choice []struct {
		Key    string `toml:"key"`
		Value  string `toml:"value"`
		Words  string `toml:"words"`
		Source string `toml:"source"`
	} `toml:"choice"`
	Rule   []Rule `toml:"rule"`
	Payees struct {
		Words  string      `toml:"words"`
		Source string      `toml:"source"`
		Kind   []PayeeKind `toml:"kind"`
		Limit  []struct {
			From   int    `toml:"from"`
			Amount string `toml:"amount"`
			Source string `toml:"source"`
		} `toml:"limit"`
	} `toml:"payees"`
	Reports struct {
		Gross  string `toml:"gross"`
		Sales  int    `toml:"sales"`
		Words  string `toml:"words"`
		Source string `toml:"source"`
	} `toml:"reports"`
	Home struct {
		Rate       string   `toml:"rate"`
		Most       string   `toml:"most"`
		Line       string   `toml:"line"`
		Simplified string   `toml:"simplified"`
		Regular    string   `toml:"regular"`
		Separate   string   `toml:"separate"`
		Utilities  string   `toml:"utilities"`
		Use        string   `toml:"use"`
		Source     string   `toml:"source"`
		Ask        []string `toml:"ask"`
	} `toml:"home"`
}

// readLimits takes what has amounts in it.
func (t *Tax) readLimits(raw *recordsFile) error {
	read := reader{file: "tables of records"}
	t.Payees = Payees{Kinds: raw.Payees.Kind, Words: raw.Payees.Words, Source: raw.Payees.Source}
	for _, l := range raw.Payees.Limit {
		t.Payees.limits = append(t.Payees.limits, payeeLimit{l.From, read.rat(l.Amount), l.Source})
	}
	t.Reports = Reports{Gross: read.rat(raw.Reports.Gross), Sales: raw.Reports.Sales, Words: raw.Reports.Words,
		Source: raw.Reports.Source}
	h := raw.Home
	t.Home = Home{Rate: read.rat(h.Rate), Most: read.rat(h.Most), Line: h.Line, Simplified: h.Simplified,
		Regular: h.Regular, Separate: h.Separate, Utilities: h.Utilities, Use: h.Use,
		Source: h.Source, Ask: h.Ask}
	return read.err
}
