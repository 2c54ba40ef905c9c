package templates

import (
	"math/big"

	"github.com/BurntSushi/toml"
)

// Depreciation is how equipment is written off over years.
type Depreciation struct {
	Source string // of all tables
	Tables []WriteOffTable
	// LatePercent: above this part of a year's cost bought in its last quarter
	// the tables by quarter hold for all that was bought in the year; nil: never.
	LatePercent *big.Rat
	LateSource  string
	Sold        SoldPart
	Allowances  []Allowance
}

// WriteOffTable is the percentages of one published table for one life.
type WriteOffTable struct {
	Life        string     // as the Equipment table has it
	Quarter     int        // for what was bought in that quarter; 0: for all the year
	Name        string     // Table A-1
	Percent     []*big.Rat // of the cost, from the year bought
	NotSeenFrom int        // from this year of the table on it was not seen in print; 0: all was
}

// SoldPart is the percent of a year's write-off that counts in the year of a
// sale, of items by a table for all the year and by quarter of sale; nil: all.
type SoldPart struct {
	Year    *big.Rat
	Quarter []*big.Rat
	Source  string
}

// Allowance is the special allowance that the law takes by default in the first
// year, in percent of the cost, for what was acquired from a day through another.
type Allowance struct {
	From, To string // 2025-01-20; To blank: no end known
	Percent  *big.Rat
	Source   string
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

func (t *Tax) readDepreciation(text string) error {
	var raw struct {
		Source string `toml:"source"`
		Late   struct {
			Percent string `toml:"percent"`
			Source  string `toml:"source"`
		} `toml:"late_buying"`
		Sold struct {
			Year    string   `toml:"year"`
			Quarter []string `toml:"quarter"`
			Source  string   `toml:"source"`
		} `toml:"sold"`
		Allowance []struct {
			From    string `toml:"from"`
			To      string `toml:"to"`
			Percent string `toml:"percent"`
			Source  string `toml:"source"`
		} `toml:"allowance"`
		Table []struct {
			Life        string   `toml:"life"`
			Quarter     int      `toml:"quarter"`
			Name        string   `toml:"name"`
			Percent     []string `toml:"percent"`
			NotSeenFrom int      `toml:"not_seen_from"`
		} `toml:"table"`
	}
	if _, err := toml.Decode(text, &raw); err != nil {
		return err
	}
	read := reader{file: "tables of depreciation"}
	d := Depreciation{Source: raw.Source, LateSource: raw.Late.Source, LatePercent: read.rat(raw.Late.Percent),
		Sold: SoldPart{Source: raw.Sold.Source, Year: read.rat(raw.Sold.Year)}}
	for _, q := range raw.Sold.Quarter {
		d.Sold.Quarter = append(d.Sold.Quarter, read.rat(q))
	}
	for _, a := range raw.Allowance {
		d.Allowances = append(d.Allowances, Allowance{From: a.From, To: a.To, Percent: read.rat(a.Percent), Source: a.Source})
	}
	for _, x := range raw.Table {
		table := WriteOffTable{Life: x.Life, Quarter: x.Quarter, Name: x.Name, NotSeenFrom: x.NotSeenFrom}
		for _, p := range x.Percent {
			table.Percent = append(table.Percent, read.rat(p))
		}
		d.Tables = append(d.Tables, table)
	}
	t.Depreciation = d
	return read.err
}
