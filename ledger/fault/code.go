package fault

// Code names a kind of problem for good: codes are written into seen.csv and
// into other programs, so one is never reused with another meaning.
type Code string

// catalogue says in a line what each code of a room means.
type catalogue map[Code]string

// code is a code with its meaning, which is put into the catalogue.
func (c catalogue) code(name, meaning string) Code {
	c[Code(name)] = meaning
	return Code(name)
}
