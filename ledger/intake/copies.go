package intake

import (
	"fmt"
	"hash/fnv"
	"maps"
	"slices"

	"piecebook/ledger/fault"
)

// copyLeast is how many rows a file must have to be taken for a copy of
// another with the same rows, and olderLeast for one that has only some of them.
const copyLeast, olderLeast = 2, 8

// fileRows is a file's rows as numbers made of their table and cells, each with
// how often it stands there.
type fileRows struct {
	name  string
	rows  map[uint64]int
	count int
	first uint64
	// unknown says that cells could not be read for what they are.
	unknown bool
}

// takeOutCopies tells a file all of whose rows stand in another file too: a
// copy, or an older state of it. It is one slip, so it is reported once and the
// copy's rows are refused without a word each.
func (r *reading) takeOutCopies() {
	if !slices.ContainsFunc(r.tally, func(t *TableTally) bool { return t.File != r.tally[0].File }) {
		return
	}
	files := r.rowsByFile()
	having := map[uint64][]*fileRows{}
	for _, f := range files {
		for row := range f.rows {
			having[row] = append(having[row], f)
		}
	}
	out := map[string]bool{}
	// The shorter file is the copy; of two of one length the one with the longer
	// name: Shop book (copy).xlsx.
	slices.SortFunc(files, func(a, b *fileRows) int { return a.compare(b) })
	for _, f := range files {
		for _, other := range having[f.first] {
			if out[f.name] || out[other.name] || f.compare(other) >= 0 || !f.isIn(other) {
				continue
			}
			out[f.name] = true
			why := fmt.Sprintf("This file has the same rows as %s, so everything would count twice.", other.name)
			if other.count > f.count {
				why = fmt.Sprintf("All rows of this file stand in %s too, so they would count twice.", other.name)
			}
			r.problems.Add(fault.Problem{Code: fault.CodeFileCopy, Place: fault.Place{File: f.name}, Why: why,
				Fix: "Move one of the two out of the records."})
		}
	}
	if len(out) > 0 {
		r.dropFiles(out)
	}
}

// compare orders files so that a copy comes before what it is a copy of.
func (f *fileRows) compare(g *fileRows) int {
	switch {
	case f.count != g.count:
		return f.count - g.count
	case len(f.name) != len(g.name):
		return len(g.name) - len(f.name)
	case f.name > g.name:
		return -1
	case f.name < g.name:
		return 1
	}
	return 0
}

// isIn says that all rows of a file stand in another one, as often.
func (f *fileRows) isIn(other *fileRows) bool {
	if f.count < copyLeast || f.count < other.count && f.count < olderLeast {
		return false
	}
	for row, n := range f.rows {
		if other.rows[row] < n {
			return false
		}
	}
	return true
}

// rowsByFile gathers the rows of all tables by file. A file with a table that
// could not be read is no copy: its cells are not known.
func (r *reading) rowsByFile() []*fileRows {
	files := map[string]*fileRows{}
	for _, table := range slices.Sorted(maps.Keys(r.tables)) {
		for _, rec := range r.tables[table] {
			f := files[rec.At.File]
			if f == nil {
				f = &fileRows{name: rec.At.File, rows: map[uint64]int{}}
				files[rec.At.File] = f
			}
			f.unknown = f.unknown || rec.Block.Broken || rec.Block.Faulty || rec.Line.Broken
			row := rec.rowNumber()
			if f.count == 0 {
				f.first = row
			}
			f.rows[row]++
			f.count++
		}
	}
	maps.DeleteFunc(files, func(_ string, f *fileRows) bool { return f.unknown })
	return slices.Collect(maps.Values(files))
}

// rowNumber is the row as a number: equal for equal cells in columns of one
// meaning, wherever these stand.
func (rec *record) rowNumber() uint64 {
	h := fnv.New64a()
	fmt.Fprintf(h, "%q", rec.Block.Table.Name)
	for i := range rec.Block.Table.Fields {
		name := rec.Block.Table.Fields[i].Name
		if text := rec.Raw(name); text != "" {
			fmt.Fprintf(h, "%q%q", name, text)
		}
	}
	return h.Sum64()
}

// dropFiles refuses the rows of files and takes them out, with what was reported
// of them alone.
func (r *reading) dropFiles(out map[string]bool) {
	for table, records := range r.tables {
		r.tables[table] = slices.DeleteFunc(records, func(rec *record) bool {
			if out[rec.At.File] {
				rec.tally.Refused++
			}
			return out[rec.At.File]
		})
	}
	r.rows.DropFiles(out)
	var kept fault.List
	for _, p := range r.problems.All() {
		if !out[p.Place.File] || p.Code == fault.CodeFileCopy {
			kept.Add(p)
		}
	}
	r.problems = kept
}

// withoutRows is a set of rows to refuse, whatever they say.
func withoutRows(places []fault.Place) map[fault.Place]bool {
	out := map[fault.Place]bool{}
	for _, p := range places {
		out[p.At("")] = true
	}
	return out
}
