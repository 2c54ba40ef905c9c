package main

import (
	"errors"
	"fmt"
	"strconv"
	"time"

	"piecebook/ledger/calendar"
	"piecebook/ledger/taxyear"
	"piecebook/report"
	"piecebook/templates"
)

type yearCmd struct {
	Year string `arg:"" optional:"" help:"The year, as 2026. Blank: that of the last month that has records of two tables."`
}

// Run makes the year's cost records.
func (k yearCmd) Run(c *cli, w world) error {
	b, y, err := c.taxYear(w, k.Year)
	if err != nil {
		return err
	}
	figures, err := report.YearJSON(y)
	if err != nil {
		return err
	}
	_ = b
	_, err = w.out.Write(figures)
	return err
}

// taxYear reads the books and works out the year asked for.
func (c *cli) taxYear(w world, text string) (*books, *taxyear.Year, error) {
	december, err := readYear(text)
	if err != nil {
		return nil, nil, err
	}
	b, err := c.ready(w, december)
	if err != nil {
		return nil, nil, err
	}
	if december == 0 {
		if b, err = c.ready(w, calendar.MonthOf(b.month.Year(), time.December)); err != nil {
			return nil, nil, err
		}
	}
	tax, err := templates.LoadTax("US")
	if err != nil {
		return nil, nil, err
	}
	y, err := taxyear.For(b.ledger, b.month.Year(), tax, b.set.AtOnceCents)
	if errors.Is(err, taxyear.ErrBeforeBooks) {
		return nil, nil, usage(fmt.Sprintf("The books begin in %s; there are no records of %d.", b.ledger.Months[0].Month.Name(), b.month.Year()))
	}
	return b, y, err
}

// readYear reads a year as typed and gives its December; blank is none.
func readYear(text string) (calendar.Month, error) {
	if text == "" {
		return 0, nil
	}
	n, err := strconv.Atoi(text)
	if err != nil || len(text) != 4 || n < 1900 {
		return 0, usage(fmt.Sprintf("%q is no year. Type it with four digits, as in 2026.", text))
	}
	return calendar.MonthOf(n, time.December), nil
}
