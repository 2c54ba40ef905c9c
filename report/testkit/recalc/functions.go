package recalc

import (
	"math/big"
	"regexp"
	"strings"
)

// argument is what a function is given: a value, or a range.
type argument struct {
	value
	span *span
}

// call works a function out; its name and bracket have been read.
func (p *parser) call(name string) value {
	var args []argument
	for p.err == nil && p.sign() != ")" {
		if len(args) > 0 {
			p.take(",")
		}
		if p.m != nil && p.m[3] != "" && p.m[4] != "" {
			s := p.span(p.m)
			args = append(args, argument{span: &s})
			p.next()
			continue
		}
		args = append(args, argument{value: p.compare()})
	}
	p.take(")")
	if p.err != nil {
		return value{}
	}
	switch name {
	case "SUM":
		return p.sum(args)
	case "SUMIFS":
		return p.sumIfs(args)
	case "IF":
		return p.choose(args)
	case "ABS":
		return value{number: new(big.Rat).Abs(p.number(p.one(args, 1)))}
	case "ROUND":
		return p.round(args)
	}
	p.fail("%s is no function of ours", name)
	return value{}
}

func (p *parser) one(args []argument, n int) value {
	if len(args) != n || args[0].span != nil {
		p.fail("a function wants %d values", n)
		return value{}
	}
	return args[0].value
}

// sum adds numbers up; words in a range count for nothing.
func (p *parser) sum(args []argument) value {
	total := new(big.Rat)
	for _, a := range args {
		if a.span == nil {
			total.Add(total, p.number(a.value))
			continue
		}
		values, err := p.e.values(*a.span)
		if err != nil {
			p.fail("%s", err)
			break
		}
		for _, v := range values {
			total.Add(total, num(v))
		}
	}
	return value{number: total}
}

func (p *parser) choose(args []argument) value {
	if len(args) != 3 || args[0].yes == nil {
		p.fail("IF wants a condition and two values")
		return value{}
	}
	if *args[0].yes {
		return args[1].value
	}
	return args[2].value
}

// round goes half away from zero, as spreadsheets do.
func (p *parser) round(args []argument) value {
	x := p.number(p.one(args, 2))
	if p.err != nil {
		return value{}
	}
	scale := new(big.Rat).SetInt(new(big.Int).Exp(big.NewInt(10), num(args[1].value).Num(), nil))
	twice := new(big.Rat).Mul(new(big.Rat).Abs(x), scale)
	twice.Add(twice, big.NewRat(1, 2))
	floor := new(big.Rat).SetInt(new(big.Int).Div(twice.Num(), twice.Denom()))
	floor.Quo(floor, scale)
	if x.Sign() < 0 {
		floor.Neg(floor)
	}
	return value{number: floor}
}

// doubtful are conditions in words that a spreadsheet program may take for
// something else: wildcards, and what it may read as a number or a date.
var doubtful = regexp.MustCompile(`[*?~]|^[=<>]|^[-+.\d(]`)

// sumIfs adds up where all conditions hold.
func (p *parser) sumIfs(args []argument) value {
	if len(args) < 3 || len(args)%2 == 0 || args[0].span == nil {
		p.fail("SUMIFS wants a range, then ranges with their conditions")
		return value{}
	}
	height := args[0].span.last - args[0].span.first
	for i := 1; i < len(args); i += 2 {
		if args[i].span == nil || args[i].span.last-args[i].span.first != height || args[i+1].span != nil {
			p.fail("SUMIFS wants ranges of one height")
			return value{}
		}
	}
	rows, met := p.fewest(args, height+1)
	for i := 1; i < len(args); i += 2 {
		if i != met {
			rows = p.filter(rows, *args[i].span, args[i+1].value)
		}
	}
	total := new(big.Rat)
	for _, row := range rows {
		v, err := p.e.cell(args[0].span.sheet, args[0].span.col, args[0].span.first+row)
		if err != nil {
			p.fail("%s", err)
			break
		}
		total.Add(total, num(v))
	}
	return value{number: total}
}

// fewest are the offsets that meet the one condition of equality that leaves
// the fewest, and where it stands among the arguments; all rows, and 0, where
// no condition is of equality. Equality is looked up, which saves going through
// all rows of a sheet for each of its formulas.
func (p *parser) fewest(args []argument, height int) (rows []int, met int) {
	for i := 1; i < len(args); i += 2 {
		if want := args[i+1].value; comparison(want.text) == "" {
			if found := p.equal(*args[i].span, want); met == 0 || len(found) < len(rows) {
				rows, met = found, i
			}
		}
	}
	if met == 0 {
		for i := range height {
			rows = append(rows, i)
		}
	}
	return rows, met
}

// equal are the offsets of a range's cells that equal a value.
func (p *parser) equal(s span, want value) []int {
	if want.number == nil && (want.text == "" || doubtful.MatchString(want.text)) {
		p.fail("the condition %q is one that a spreadsheet may read otherwise", want.text)
		return nil
	}
	at := p.e.index[s.String()]
	if at == nil {
		values, err := p.e.values(s)
		if err != nil {
			p.fail("%s", err)
			return nil
		}
		at = map[string][]int{}
		for i, v := range values {
			at[v.key()] = append(at[v.key()], i)
		}
		p.e.index[s.String()] = at
	}
	return at[want.key()]
}

// filter keeps the offsets whose cells meet a condition: a comparison with a
// whole number, or equality.
func (p *parser) filter(rows []int, s span, want value) []int {
	op := comparison(want.text)
	if op != "" {
		x, ok := new(big.Rat).SetString(want.text[len(op):])
		if !ok {
			p.fail("the condition %q compares with no number", want.text)
			return nil
		}
		want = value{number: x}
	} else if want.number == nil && (want.text == "" || doubtful.MatchString(want.text)) {
		p.fail("the condition %q is one that a spreadsheet may read otherwise", want.text)
		return nil
	}
	var out []int
	for _, row := range rows {
		v, err := p.e.cell(s.sheet, s.col, s.first+row)
		if err != nil {
			p.fail("%s", err)
			return nil
		}
		if op == "" && v.key() == want.key() || op != "" && v.number != nil && meets(v.number.Cmp(want.number), op) {
			out = append(out, row)
		}
	}
	return out
}

// comparison is the sign a condition begins with, blank for equality.
func comparison(condition string) string {
	for _, op := range []string{">=", "<=", ">", "<"} {
		if strings.HasPrefix(condition, op) {
			return op
		}
	}
	return ""
}

func meets(c int, op string) bool {
	return c == 0 && len(op) == 2 || c > 0 && op[0] == '>' || c < 0 && op[0] == '<'
}
