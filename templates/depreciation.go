package templates

import "math/big"

// Depreciation is how equipment is written off over years.
type Depreciation struct {
	Source     string          `toml:"source"` // of all tables
	Tables     []WriteOffTable `toml:"table"`
	Late       LateBuying      `toml:"late_buying"`
	Sold       SoldPart        `toml:"sold"`
	Allowances []Allowance     `toml:"allowance"`
}

// LateBuying says when the tables by quarter hold for all that was bought in a
// year: where more than Percent of its cost was bought in the last quarter; nil: never.
type LateBuying struct {
	Percent *big.Rat `toml:"percent"`
	Source  string   `toml:"source"`
}

// WriteOffTable is the percentages of one published table for one life.
type WriteOffTable struct {
	Life        string     `toml:"life"`          // as the Equipment table has it
	Quarter     int        `toml:"quarter"`       // for what was bought in that quarter; 0: for all the year
	Name        string     `toml:"name"`          // Table A-1
	Percent     []*big.Rat `toml:"percent"`       // of the cost, from the year bought
	NotSeenFrom int        `toml:"not_seen_from"` // from this year of the table on it was not seen in print; 0: all was
}

// SoldPart is the percent of a year's write-off that counts in the year of a
// sale, of items by a table for all the year and by quarter of sale; nil: all.
type SoldPart struct {
	Year    *big.Rat   `toml:"year"`
	Quarter []*big.Rat `toml:"quarter"`
	Source  string     `toml:"source"`
}

// Allowance is the special allowance that the law takes by default in the first
// year, in percent of the cost, for what was acquired from a day through another.
type Allowance struct {
	From    string   `toml:"from"` // 2025-01-20
	To      string   `toml:"to"`   // blank: no end known
	Percent *big.Rat `toml:"percent"`
	Source  string   `toml:"source"`
}

// Table is the table of a life for what was bought in a quarter (1 to 4), 0 for
// all the year; where there is none by quarter, that for all the year. Nil: a
// life without a table.
func (d *Depreciation) Table(life string, quarter int) *WriteOffTable {
	var usual *WriteOffTable
	for i := range d.Tables {
		t := &d.Tables[i]
		switch {
		case t.Life != life:
		case t.Quarter == quarter:
			return t
		case t.Quarter == 0:
			usual = t
		}
	}
	return usual
}

// Allowance is the one for an item acquired on a day (2025-01-20); nil where
// none is known.
func (d *Depreciation) Allowance(day string) *Allowance {
	for i := range d.Allowances {
		if a := &d.Allowances[i]; a.From <= day && (a.To == "" || day <= a.To) {
			return a
		}
	}
	return nil
}
