// Package kinds puts the kinds of furniture beside each other: what each
// brought, how fast it sold, what it ties up, and which is worth the next
// hour. Of goes in with a costed ledger and a scope and comes out with a
// Report. Money is exact and a sum of what the pieces' figures say; what is
// estimated from it is in estimate.go and never added to anything.
//
// How the contract is read where it leaves room:
//
//   - Judged are the pieces sold, scrapped or stolen in the scope; one returned
//     to its seller is not. Clients' pieces are in no kind. Kinds are compared
//     by their letters and digits.
//   - A piece's profit is its life's up to the ledger's last month, so late
//     costs are in it. Profit an hour is before shop costs; usual shop costs of
//     an hour (CostsOf) are taken off once, beside it.
//   - Pieces sold on one line count as one sale in whatever is estimated: the
//     ranking, its range, the shares sold in time. Counts, medians and ranges of
//     profit are of pieces. A kind is ranked from three sales on.
//   - A piece lost before any work counts by the hour with its loss and no
//     hours; a piece sold without hours does not count by the hour.
//   - Sold within so many days: a piece still here is watched to the period's
//     end, one removed to its removal; a sale that came back is no sale; days
//     count from listing to the sale that stands.
//   - A channel's rent is every expense that names it, its trips are those for
//     the pieces sold there; its receipts count by their own dates.
//   - A season is months of the calendar; one that runs over New Year belongs to
//     the year it ends in. A last month that has only sales is looked at too.
//
// A kind's sales are taken as normal round the kind's long-run average, and
// the averages as normal round the shop's (package statistics). A reading is
// the kind's profit an hour plus how far the sale lies off it (ratio
// linearisation). Scatter is expected in proportion to Sizes.Scatter; prices
// may have a trend and a season, by the same share in every kind, which are
// drawn hard toward none. The long-run average is a whole year's, at the end of
// the period.
package kinds
