package text

import (
	"cmp"
	"strings"

	"piecebook/report/page"
)

// Plain is d for a screen reader: one fact a line, no line drawn with
// characters, and a zero amount said as 0.00. A cell stands with its row's
// first cell and its column's head, so that a line says all by itself.
func Plain(d page.Document) string {
	p := plain{sign: page.Sign(d.Currency)}
	p.say(d.Banner)
	for _, s := range d.Sections {
		if !s.Untitled {
			p.say(s.Title)
		}
		p.blocks(s.Blocks)
	}
	for _, s := range []string{d.Shop, d.Title, d.Period} {
		p.say(s)
	}
	p.fact("Records", d.Fingerprint)
	return p.String()
}

// plain gathers lines.
type plain struct {
	strings.Builder
	sign string
}

// say adds words as one line, whatever lines they were in.
func (p *plain) say(words ...string) {
	line := strings.Join(strings.Fields(clean(strings.Join(words, " "))), " ")
	if line != "" {
		p.WriteString(line + "\n")
	}
}

// fact adds a line of a label and its value, where it has one.
func (p *plain) fact(label, value string) {
	if value != "" {
		p.say(label+":", value)
	}
}

func (p *plain) blocks(blocks []page.Block) {
	for _, b := range blocks {
		switch b := b.(type) {
		case page.Title:
			for _, s := range []string{b.Text, b.Under, b.Right} {
				p.say(s)
			}
		case page.Heading:
			p.say(b.Text)
		case page.Paragraph:
			p.say(b.Mark, b.Text)
			p.say(b.Tail)
		case page.KeyFigures:
			for _, k := range b.Items {
				p.fact(k.Words, p.cell(k.Figure))
				p.fact(k.Words, k.Sum())
				for _, s := range k.Small {
					p.fact(k.Words+", "+s.Label, p.cell(s.Figure))
				}
			}
		case page.Facts:
			for _, f := range b.Items {
				p.fact(f.Label, strings.TrimSpace(f.Value+" "+f.Under))
			}
		case page.Table:
			p.table(b.Plain())
		case page.Columns:
			p.blocks(b.Left)
			p.blocks(b.Right)
		case page.KeepTogether:
			p.blocks(b.Blocks)
		default:
			p.blocks(b.Fallback())
		}
	}
}

// table says each cell after its row's name and its column's head; one without
// a head goes on from the cell before it.
func (p *plain) table(b page.Table) {
	p.say(b.Caption)
	for _, r := range b.Rows {
		p.row(b, r)
		p.say(r.Note)
	}
	p.say(b.Note)
}

func (p *plain) row(b page.Table, r page.Row) {
	type fact struct{ label, value string }
	var facts []fact
	name := ""
	for i, c := range r.Cells[:min(len(r.Cells), len(b.Columns))] {
		text, head := p.cell(c), headOf(b, i)
		switch {
		case i == 0:
			name = text
		case text == "":
		case head == "" && len(facts) > 0:
			facts[len(facts)-1].value += " " + text
		default:
			facts = append(facts, fact{strings.Trim(cmp.Or(name, "Of these")+", "+head, ", "), text})
		}
	}
	if len(facts) == 0 {
		p.say(name)
	}
	for _, f := range facts {
		p.fact(f.label, f.value)
	}
}

// headOf is a column's head; tables that have none speak for themselves.
func headOf(b page.Table, column int) string {
	if b.NoHead {
		return ""
	}
	return b.Columns[column].Head
}

// cell is a cell in words: an amount with its sign, zero too, and minus where
// others print brackets.
func (p *plain) cell(c page.Cell) string {
	if c.Kind != page.KindMoney {
		return page.Pageless(c.Text)
	}
	text := page.Amount(c.Cents, p.sign, true)
	if c.Cents < 0 {
		return "minus " + strings.Trim(text, "()")
	}
	return text
}
