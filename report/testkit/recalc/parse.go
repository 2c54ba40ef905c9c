package recalc

import (
	"fmt"
	"math/big"
	"regexp"
	"strconv"
	"strings"

	"piecebook/report/workbook"
)

// token splits a formula: words in quotation marks, references with their
// sheet, names of functions, numbers, signs.
var token = regexp.MustCompile(
	`^\s*(?:("(?:[^"]|"")*")|((?:'[^']+'|[A-Za-z_][A-Za-z0-9_]*)!)?(\$?[A-Z]{1,3}\$?[0-9]+)(?::(\$?[A-Z]{1,3}\$?[0-9]+))?|([A-Z]+)\(|([0-9]+(?:\.[0-9]+)?)|(<=|>=|<>|[-+*/&=<>(),]))`)

// parser works a formula out as it reads it.
type parser struct {
	e    *engine
	on   *workbook.Sheet
	left string
	m    []string // the token at hand; nil at the end
	err  error
}

func (e *engine) work(s *workbook.Sheet, formula string) (value, error) {
	p := &parser{e: e, on: s, left: formula}
	p.next()
	v := p.compare()
	if p.err == nil && p.m != nil {
		p.fail("%q is left over", p.m[0])
	}
	return v, p.err
}

func (p *parser) fail(format string, args ...any) {
	if p.err == nil {
		p.err = fmt.Errorf(format, args...)
	}
}

func (p *parser) next() {
	p.m = nil
	if strings.TrimSpace(p.left) == "" {
		return
	}
	m := token.FindStringSubmatch(p.left)
	if m == nil {
		p.fail("cannot be read from %q", p.left)
		p.left = ""
		return
	}
	p.left = p.left[len(m[0]):]
	p.m = m
}

// sign is the operator at hand, blank where it is none.
func (p *parser) sign() string {
	if p.m == nil || p.err != nil {
		return ""
	}
	return p.m[7]
}

func (p *parser) take(sign string) {
	if p.sign() != sign {
		p.fail("%s is missing before %q", sign, p.left)
		return
	}
	p.next()
}

func (p *parser) compare() value {
	a := p.join()
	for strings.Contains("= <> < <= > >=", p.sign()) && p.sign() != "" {
		op := p.sign()
		p.next()
		b := p.join()
		c := order(a, b)
		yes := map[string]bool{"=": c == 0, "<>": c != 0, "<": c < 0, "<=": c <= 0, ">": c > 0, ">=": c >= 0}[op]
		a = value{yes: &yes}
	}
	return a
}

// order compares numbers as such and words without regard to case.
func order(a, b value) int {
	if a.number != nil || b.number != nil {
		return num(a).Cmp(num(b))
	}
	return strings.Compare(strings.ToLower(a.text), strings.ToLower(b.text))
}

func num(v value) *big.Rat {
	if v.number == nil {
		return new(big.Rat)
	}
	return v.number
}

func (p *parser) join() value {
	a := p.add()
	for p.sign() == "&" {
		p.next()
		b := p.add()
		a = value{text: plain(a) + plain(b)}
	}
	return a
}

// plain is a value as it is put into words: whole numbers only are ours.
func plain(v value) string {
	if v.number != nil {
		return v.number.RatString()
	}
	return v.text
}

func (p *parser) add() value {
	a := p.multiply()
	for s := p.sign(); s == "+" || s == "-"; s = p.sign() {
		p.next()
		b := p.multiply()
		x, y := p.number(a), p.number(b)
		if s == "-" {
			a = value{number: new(big.Rat).Sub(x, y)}
		} else {
			a = value{number: new(big.Rat).Add(x, y)}
		}
	}
	return a
}

func (p *parser) multiply() value {
	a := p.unary()
	for s := p.sign(); s == "*" || s == "/"; s = p.sign() {
		p.next()
		b := p.unary()
		x, y := p.number(a), p.number(b)
		switch {
		case s == "*":
			a = value{number: new(big.Rat).Mul(x, y)}
		case y.Sign() == 0:
			p.fail("divides by zero")
		default:
			a = value{number: new(big.Rat).Quo(x, y)}
		}
	}
	return a
}

// number refuses to calculate with text.
func (p *parser) number(v value) *big.Rat {
	if v.text != "" || v.yes != nil {
		p.fail("%q is no number", v.text)
	}
	return num(v)
}

func (p *parser) unary() value {
	if p.sign() == "-" {
		p.next()
		return value{number: new(big.Rat).Neg(p.number(p.unary()))}
	}
	return p.primary()
}

func (p *parser) primary() value {
	if p.m == nil || p.err != nil {
		p.fail("ends too soon")
		return value{}
	}
	m := p.m
	switch {
	case m[1] != "":
		p.next()
		return value{text: strings.ReplaceAll(m[1][1:len(m[1])-1], `""`, `"`)}
	case m[3] != "" && m[4] != "":
		p.fail("the range %s stands where one value must", m[0])
	case m[3] != "":
		p.next()
		s := p.span(m)
		v, err := p.e.cell(s.sheet, s.col, s.first)
		if err != nil {
			p.fail("%s", err)
		}
		return v
	case m[5] != "":
		p.next()
		return p.call(m[5])
	case m[6] != "":
		p.next()
		x, _ := new(big.Rat).SetString(m[6])
		return value{number: x}
	case m[7] == "(":
		p.next()
		v := p.compare()
		p.take(")")
		return v
	default:
		p.fail("%q stands where a value must", m[0])
	}
	return value{}
}

// span is the reference at hand.
func (p *parser) span(m []string) span {
	s := span{sheet: p.on}
	if m[2] != "" {
		name := strings.Trim(strings.TrimSuffix(m[2], "!"), "'")
		if s.sheet = p.e.sheets[name]; s.sheet == nil {
			p.fail("there is no sheet %q", name)
			s.sheet = p.on
		}
	}
	s.col, s.first = cellAt(m[3])
	s.last = s.first
	if m[4] != "" {
		col, last := cellAt(m[4])
		if col != s.col || last < s.first {
			p.fail("%s is not a part of one column", m[0])
		}
		s.last = last
	}
	return s
}

func cellAt(name string) (col, row int) {
	name = strings.ReplaceAll(name, "$", "")
	letters := strings.TrimRight(name, "0123456789")
	for _, r := range letters {
		col = col*26 + int(r-'A') + 1
	}
	row, _ = strconv.Atoi(name[len(letters):])
	return col - 1, row
}
