//! Where a table goes on to the next page.

use std::collections::BTreeSet;

/// Rows that a heading must have beside it at the foot of a page.
pub(super) const LEAST_TOGETHER: usize = 2;
/// A last page that is filled less than this takes rows from those before it.
pub(super) const LEAST_FILLED: f64 = 0.5;
/// By how much of a page all pages are shortened at a time, and how often.
const STEP: f64 = 0.03;
const MOST_STEPS: usize = 16;

/// A row as far as pages are concerned.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Measured {
    /// Its height.
    pub(super) height_mm: f64,
    /// Whether it stands over the rows behind it.
    pub(super) is_heading: bool,
    /// Whether what stands under it begins a page where this one has no room for all of it.
    pub(super) stands_whole: bool,
    /// Whether no page ends before it: it is the same thing as the row before.
    pub(super) joins: bool,
    /// Height of a heading where it is said again.
    pub(super) again_mm: f64,
}

/// The rows before which a page ends, with so much room on the first page and on all others.
pub(super) fn breaks(rows: &[Measured], first_mm: f64, full_mm: f64) -> BTreeSet<usize> {
    let (mut best, filled_mm) = filled(rows, first_mm, full_mm, 0.0);
    if best.is_empty() || filled_mm >= LEAST_FILLED * full_mm || rows.iter().any(|row| row.stands_whole) {
        return best;
    }
    for step in 1..=MOST_STEPS {
        let (other, _) = filled(rows, first_mm, full_mm, STEP * step as f64 * full_mm);
        if other.len() > best.len() {
            break;
        }
        best = other;
    }
    best
}

/// The same with so much left free on each page, and how much of the last is filled.
fn filled(rows: &[Measured], first_mm: f64, full_mm: f64, free_mm: f64) -> (BTreeSet<usize>, f64) {
    let mut breaks = BTreeSet::new();
    let (mut used, mut room) = (0.0, (first_mm - free_mm).max(0.0));
    let mut again_mm = 0.0;
    for (index, row) in rows.iter().enumerate() {
        let group =
            || rows[index..].iter().skip(1).take_while(|row| !row.is_heading).map(|row| row.height_mm);
        let whole = row.height_mm + if row.is_heading { group().sum::<f64>() } else { 0.0 };
        let together = match row.is_heading {
            // A page that is hardly filled is not left for it.
            true if whole <= full_mm - free_mm && used >= LEAST_FILLED * room => whole,
            true => row.height_mm + group().take(LEAST_TOGETHER).sum::<f64>(),
            false => thing_mm(&rows[index..], full_mm - free_mm - again_mm),
        };
        let is_full = used > 0.0 && used + together > room + 1e-6 && !stays(rows, index, used, room);
        let is_parted = row.stands_whole && used > 0.0 && used + whole > room + 1e-6;
        if is_parted || is_full {
            breaks.insert(index);
            used = if row.is_heading { 0.0 } else { again_mm };
            room = full_mm - free_mm;
        }
        if row.is_heading {
            again_mm = row.again_mm;
        }
        used += row.height_mm;
    }
    (breaks, used)
}

/// Height of a row with those behind it that are the same thing, where a page holds them; else its own.
fn thing_mm(rows: &[Measured], page_mm: f64) -> f64 {
    let same = rows[1..].iter().take_while(|row| row.joins).map(|row| row.height_mm);
    let whole = rows[0].height_mm + same.sum::<f64>();
    if whole <= page_mm { whole } else { rows[0].height_mm }
}

/// Whether a row stays with the one before, which is the same thing and left room for it.
fn stays(rows: &[Measured], index: usize, used: f64, room: f64) -> bool {
    rows[index].joins && used + rows[index].height_mm <= room + 1e-6
}

#[cfg(test)]
mod tests {
    use super::*;

    fn row(height_mm: f64) -> Measured {
        Measured { height_mm, is_heading: false, stands_whole: false, joins: false, again_mm: 0.0 }
    }

    fn heading() -> Measured {
        Measured { height_mm: 5.0, is_heading: true, stands_whole: false, joins: false, again_mm: 5.0 }
    }

    /// Rows on each page.
    fn pages(rows: &[Measured], breaks: &BTreeSet<usize>) -> Vec<usize> {
        let ends: Vec<usize> = breaks.iter().copied().chain([rows.len()]).collect();
        let starts = std::iter::once(0).chain(breaks.iter().copied());
        starts.zip(ends).map(|(start, end)| end - start).collect()
    }

    #[test]
    fn a_last_page_is_not_left_with_a_few_rows() {
        let rows = vec![row(10.0); 43];
        let found = pages(&rows, &breaks(&rows, 200.0, 200.0));
        // 20, 20 and 3 by filling each; three pages stay three, and share.
        assert_eq!((found.len(), found.iter().sum::<usize>()), (3, 43));
        assert!(found.iter().min() >= Some(&10), "{found:?}");
        assert!(pages(&vec![row(10.0); 19], &breaks(&vec![row(10.0); 19], 200.0, 200.0)) == [19]);
    }

    #[test]
    fn rows_under_a_heading_stay_together_where_a_page_holds_them() {
        let mut rows = vec![row(10.0); 12];
        rows.push(heading());
        rows.extend(vec![row(10.0); 15]);
        let found = breaks(&rows, 200.0, 200.0);
        assert_eq!(found, BTreeSet::from([12]));
        // More than a page of them begin where there is room for two.
        rows.extend(vec![row(10.0); 15]);
        assert!(!breaks(&rows, 200.0, 200.0).contains(&12));
    }

    #[test]
    fn a_page_that_is_hardly_filled_is_not_left_for_a_heading() {
        let mut rows = vec![row(10.0); 3];
        rows.push(heading());
        rows.extend(vec![row(10.0); 18]);
        // All under the heading would fit on the next page: the first would have three rows.
        let found = pages(&rows, &breaks(&rows, 200.0, 200.0));
        assert_eq!(found.len(), 2);
        assert!(found[0] > 10, "{found:?}");
    }

    #[test]
    fn what_stands_whole_shares_a_page_that_holds_it() {
        let whole = Measured { stands_whole: true, ..heading() };
        let group = |count: usize| [vec![whole], vec![row(10.0); count]].concat();
        let rows = [group(6), group(6), group(9)].concat();
        let found = breaks(&rows, 200.0, 200.0);
        assert_eq!(found, BTreeSet::from([14]), "two fit, the third begins a page");
    }

    #[test]
    fn one_thing_stays_on_one_page_where_a_page_holds_it() {
        let thing = |count: usize| {
            let first = vec![row(10.0)];
            [first, vec![Measured { joins: true, ..row(10.0) }; count - 1]].concat()
        };
        // Twenty rows fit, which would part the seventh thing of three.
        let rows = vec![thing(3); 14].concat();
        let found = breaks(&rows, 200.0, 200.0);
        assert!(!found.is_empty() && found.iter().all(|row| row % 3 == 0), "{found:?}");
        // What no page holds is parted as ever.
        let found = pages(&thing(50), &breaks(&thing(50), 200.0, 200.0));
        assert_eq!(found.iter().sum::<usize>(), 50);
        assert!(found.len() == 3 && found.iter().all(|rows| *rows <= 20), "{found:?}");
    }

    #[test]
    fn no_page_overflows() {
        for count in 1..120 {
            let rows: Vec<Measured> = (0..count)
                .map(|index| if index % 7 == 0 { heading() } else { row(4.0 + (index % 5) as f64) })
                .collect();
            let found = breaks(&rows, 60.0, 100.0);
            let starts: Vec<usize> = std::iter::once(0).chain(found.iter().copied()).collect();
            for (page, start) in starts.iter().enumerate() {
                let end = starts.get(page + 1).copied().unwrap_or(count);
                let height: f64 = rows[*start..end].iter().map(|row| row.height_mm).sum();
                assert!(height <= if page == 0 { 60.0 } else { 100.0 }, "{count} rows: page {page}");
            }
        }
    }
}
