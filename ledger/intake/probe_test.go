package intake_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/xuri/excelize/v2"
)

func TestProbe(t *testing.T) {
	b := workbook("Channels", func(f *excelize.File) {
		row(f, 1, "channel", "fee_percent")
		row(f, 2, "Etsy", 0.125)
		st, _ := f.NewStyle(&excelize.Style{NumFmt: 10})
		_ = f.SetCellStyle("Channels", "B2", "B2", st)
		_ = f.SetCellValue("Channels", "F2", "call them")
	})
	res := read(t, file("c.xlsx", b))
	fmt.Println("PCT", res.Books.Channels, res.Problems.All())
	for _, n := range []int{5000} {
		var p, h, l strings.Builder
		p.WriteString("piece,kind,lot,area\n")
		l.WriteString("lot,got_on,price\n")
		h.WriteString("worked_on,pieces,hours\n")
		for i := range n {
			fmt.Fprintf(&p, "P%05d,chair,L%04d,9\n", i, i/5)
			if i%5 == 0 {
				fmt.Fprintf(&l, "L%04d,2026-01-01,50\n", i/5)
			}
			for range 4 {
				fmt.Fprintf(&h, "2026-02-01,X%05d,1\n", i)
			}
		}
		start := time.Now()
		res := read(t, map[string]string{"records/pieces.csv": p.String(), "records/lots.csv": l.String()})
		fmt.Println("CLEAN", n, time.Since(start), len(res.Books.Pieces), len(res.Problems.Errors()))
		start = time.Now()
		res = read(t, map[string]string{"records/pieces.csv": p.String(), "records/lots.csv": l.String(), "records/hours.csv": h.String()[:len("worked_on,pieces,hours\n")+20*400]})
		fmt.Println("400 UNKNOWN", time.Since(start), len(res.Problems.Errors()))
	}
}
