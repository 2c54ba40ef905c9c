package commands

import (
	"piecebook/report/page"
	"piecebook/report/text"
)

// text is a document as the terminal shows it, or as it is read aloud.
func (c *cli) text(d page.Document) string {
	if c.Plain {
		return text.Plain(d)
	}
	return text.Render(d)
}
