package bookgen_test

import (
	"piecebook/ledger"
	"piecebook/ledger/calendar"
)

// events names the odd turns that stand in a Books.
func events(b *ledger.Books) []string {
	seen := map[string]bool{}
	pieces := map[string]*ledger.Piece{}
	for i := range b.Pieces {
		p := &b.Pieces[i]
		pieces[p.ID] = p
		seen[string(p.How)] = true
		seen["typical area"] = seen["typical area"] || p.AreaFrom == ledger.AreaTypical
		seen["no area"] = seen["no area"] || p.Area == nil
		seen["own-row sale"] = seen["own-row sale"] || p.SoldOnOwnRow
	}
	for _, l := range b.Lots {
		seen["lot by worth"] = seen["lot by worth"] || l.ShareBy == "worth"
		seen["lot equally"] = seen["lot equally"] || l.ShareBy == "equal"
	}
	for _, r := range b.Removals {
		seen[r.Why] = true
	}
	saleEvents(b, pieces, seen)
	shelfEvents(b, seen)
	workEvents(b, pieces, seen)
	var out []string
	for event, is := range seen {
		if is {
			out = append(out, event)
		}
	}
	return out
}

func saleEvents(b *ledger.Books, pieces map[string]*ledger.Piece, seen map[string]bool) {
	soldIn := map[string]map[calendar.Month]bool{}
	firstSale := map[string]calendar.Date{}
	for _, s := range b.Sales {
		if s.Type != ledger.SaleLine {
			continue
		}
		seen["set line"] = seen["set line"] || len(s.Pieces) > 1
		for _, id := range s.Pieces {
			seen["sold client"] = seen["sold client"] || pieces[id].How == ledger.Client
			if soldIn[id] == nil {
				soldIn[id] = map[calendar.Month]bool{}
			}
			soldIn[id][s.On.InMonth()] = true
			if first := firstSale[id]; first.IsZero() || s.On.Before(first) {
				firstSale[id] = s.On
			}
		}
	}
	for _, s := range b.Sales {
		for _, id := range s.Pieces {
			first := firstSale[id]
			switch s.Type {
			case ledger.PartPayment:
				seen["part payment before it came"] = seen["part payment before it came"] || s.On.Before(pieces[id].GotOn)
				seen["payment after the sale"] = seen["payment after the sale"] || (!first.IsZero() && s.On.After(first))
			case ledger.Refund:
				seen["refund"] = true
			case ledger.Return:
				seen["return in the month of the sale"] = seen["return in the month of the sale"] ||
					first.InMonth() == s.On.InMonth()
				seen["return in a later month"] = seen["return in a later month"] || first.InMonth() < s.On.InMonth()
				seen["back and resold in one month"] = seen["back and resold in one month"] ||
					(first.InMonth() < s.On.InMonth() && soldIn[id][s.On.InMonth()])
			}
		}
	}
}

func shelfEvents(b *ledger.Books, seen map[string]bool) {
	type month struct {
		supply string
		m      calendar.Month
	}
	counts := map[month]int{}
	for _, c := range b.Counts {
		counts[month{c.Supply, c.Closes()}]++
		seen["counts in one month"] = seen["counts in one month"] || counts[month{c.Supply, c.Closes()}] > 1
		seen["count of the first days"] = seen["count of the first days"] || c.On.Day <= 5
		seen["zero count"] = seen["zero count"] || c.Left.Sign() == 0
		seen["discarded"] = seen["discarded"] || c.Discarded != nil
		for _, p := range b.Purchases {
			seen["bought after the count"] = seen["bought after the count"] ||
				(p.Supply == c.Supply && p.On.InMonth() == c.Closes() && p.On.After(c.On) && p.Amount.Sign() > 0)
		}
	}
	for _, p := range b.Purchases {
		if p.Amount.Sign() < 0 {
			counted := counts[month{p.Supply, p.On.InMonth()}] > 0
			seen["taken back with a count"] = seen["taken back with a count"] || counted
			seen["taken back without a count"] = seen["taken back without a count"] || !counted
		}
	}
	for _, o := range b.Openings {
		seen["opening deducted"] = seen["opening deducted"] || o.Deducted
		seen["opening not deducted"] = seen["opening not deducted"] || !o.Deducted
	}
}

func workEvents(b *ledger.Books, pieces map[string]*ledger.Piece, seen map[string]bool) {
	left := map[string]calendar.Date{}
	for _, s := range b.Sales {
		for _, id := range s.Pieces {
			if s.Type == ledger.SaleLine {
				left[id] = s.On
			}
		}
	}
	for _, u := range b.Uses {
		seen["measured"] = seen["measured"] || u.Amount != nil
		seen["schedule"] = seen["schedule"] || u.Schedule != ""
		seen["list of pieces"] = seen["list of pieces"] || len(u.Pieces) > 1
	}
	for _, p := range b.Parts {
		seen["money back on a part"] = seen["money back on a part"] || p.Cost < 0
		for _, id := range p.Pieces {
			seen["part before it came"] = seen["part before it came"] || p.On.Before(pieces[id].GotOn)
			seen["late cost"] = seen["late cost"] || (!left[id].IsZero() && p.On.InMonth() > left[id].InMonth())
		}
	}
	for _, m := range b.Moves {
		seen["move from a sold piece"] = seen["move from a sold piece"] ||
			(!left[m.From].IsZero() && m.On.After(left[m.From]))
	}
}
