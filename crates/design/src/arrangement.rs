//! The orders in which the items of a run can be taken.

/// Items of a run that are tried in every order.
pub const MOST_ARRANGED: usize = 4;
/// Items of a site up to which runs are tried in every order.
pub const SMALL_SITE: usize = 24;
/// Items of a site up to which the one door station or desk of a chain is tried at every position.
pub const MOST_MOVED: usize = 120;

/// The order of the items of a run.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Arrangement {
    /// As they are walked.
    Forward,
    /// The other way.
    Backward,
    /// Any other way, for a few items: the position in the walk of each.
    Other([u8; MOST_ARRANGED]),
    /// Forward or backward, but with the item of one position at another one.
    Moved {
        /// Its position before.
        from: u8,
        /// Its position afterwards.
        to: u8,
        /// Whether the items are then taken the other way.
        backward: bool,
    },
}

impl Arrangement {
    /// Items in the order of the walk, put in the order of the run.
    pub fn apply(self, walked: &[usize]) -> Vec<usize> {
        match self {
            Arrangement::Forward => walked.to_vec(),
            Arrangement::Backward => walked.iter().rev().copied().collect(),
            Arrangement::Other(positions) => positions
                .iter()
                .take(walked.len())
                .filter_map(|position| walked.get(usize::from(*position)).copied())
                .collect(),
            Arrangement::Moved { from, to, backward } => {
                let mut items = walked.to_vec();
                if usize::from(from) < items.len() {
                    let moved = items.remove(usize::from(from));
                    items.insert(usize::from(to).min(items.len()), moved);
                }
                if backward {
                    items.reverse();
                }
                items
            }
        }
    }
}

/// All arrangements of so many items, at most [`MOST_ARRANGED`].
pub(crate) fn arrangements(count: usize) -> Vec<Arrangement> {
    let mut found: Vec<Vec<u8>> = vec![Vec::new()];
    for _ in 0..count {
        let longer = |begun: &Vec<u8>| {
            let begun = begun.clone();
            (0..count as u8).filter(move |next| !begun.contains(next)).collect::<Vec<_>>()
        };
        found = found
            .iter()
            .flat_map(|begun| {
                longer(begun).into_iter().map(|next| {
                    let mut all = begun.clone();
                    all.push(next);
                    all
                })
            })
            .collect();
    }
    found
        .into_iter()
        .map(|positions| {
            let mut all = [0; MOST_ARRANGED];
            all.iter_mut().zip(&positions).for_each(|(to, from)| *to = *from);
            Arrangement::Other(all)
        })
        .collect()
}
