package starter

import (
	"fmt"
	"strings"
	"time"

	"github.com/xuri/excelize/v2"
)

// column is the letters of a column, counted from 1. A number that a sheet
// cannot have is a defect.
func column(n int) string {
	name, err := excelize.ColumnNumberToName(n)
	if err != nil {
		panic(err)
	}
	return name
}

// at is a cell's name.
func at(n, row int) string { return fmt.Sprintf("%s%d", column(n), row) }

// quoted is a sheet's name as references write it.
func quoted(sheet string) string { return "'" + strings.ReplaceAll(sheet, "'", "''") + "'" }

// dayNumber is a day as spreadsheets count it: from 1899-12-30, which is right
// from March 1900 on.
func dayNumber(text string) (int64, error) {
	day, err := time.Parse(time.DateOnly, text)
	if err != nil {
		return 0, err
	}
	return int64(day.Sub(time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)).Hours() / 24), nil
}
