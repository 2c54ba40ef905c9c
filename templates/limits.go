package templates

import "math/big"

// Payees is what payments to others must be reported of, by a year's limit.
type Payees struct {
	Kinds []PayeeKind `toml:"kind"`
	// Words says what the records cannot tell, and Source on whose word.
	Words  string       `toml:"words"`
	Source string       `toml:"source"`
	Limits []PayeeLimit `toml:"limit"` // by year
}

// PayeeKind is payments of one kind, with the form that they go on.
type PayeeKind struct {
	What   string   `toml:"what"` // rent
	Form   string   `toml:"form"` // 1099-MISC
	Groups []string `toml:"groups"`
	// OutsideWork says that outside work on pieces is of this kind.
	OutsideWork bool `toml:"outside_work"`
}

// PayeeLimit is from what payments are reported, from a year on.
type PayeeLimit struct {
	From   int      `toml:"from"`
	Amount *big.Rat `toml:"amount"`
	Source string   `toml:"source"`
}

// Limit is from what a payee's payments of one kind in a year are reported,
// with its source; nil where none is known.
func (p *Payees) Limit(year int) (amount *big.Rat, source string) {
	for _, l := range p.Limits {
		if l.From <= year {
			amount, source = l.Amount, l.Source
		}
	}
	return amount, source
}

// Reports is above what a network of sellers must report a channel's gross:
// both limits must be passed. Zero where none is known.
type Reports struct {
	Gross  *big.Rat `toml:"gross"`
	Sales  int      `toml:"sales"`
	Words  string   `toml:"words"`
	Source string   `toml:"source"`
}

// Home is what the law takes for use of the home by the simplified method.
type Home struct {
	Rate *big.Rat `toml:"rate"` // money a square foot; nil: none is known
	Most *big.Rat `toml:"most"` // square feet
	Line string   `toml:"line"`
	// Words, where not blank: of the simplified method, the regular one, of a
	// separate building, and of what stands among the shop's utilities.
	Simplified string   `toml:"simplified"`
	Regular    string   `toml:"regular"`
	Separate   string   `toml:"separate"`
	Utilities  string   `toml:"utilities"`
	Use        string   `toml:"use"` // questions on how the space was used
	Source     string   `toml:"source"`
	Ask        []string `toml:"ask"` // what the regular method needs that no record has
}
