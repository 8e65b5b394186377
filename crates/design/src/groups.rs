//! Call groups: stations that call only among themselves, and so may hang on a bus of their own.

use crate::instance::Instance;
use crate::item::Owner;

/// Items by group, each in the order of the survey, the groups in the order of their first item.
pub fn call_groups(instance: &Instance<'_>) -> Vec<Vec<usize>> {
    let survey = instance.survey;
    let items = &instance.items;
    let mut joined = Joined { above: (0..items.len()).collect() };
    for (caller, item) in items.iter().enumerate() {
        let words = match item.owner {
            Owner::Entrance(index) => &survey.entrances[index].calls,
            Owner::Desk(index) => &survey.desks[index].calls,
            Owner::Dwelling(_) => continue,
        };
        let everyone = [String::from("everyone")];
        for word in if words.is_empty() { &everyone[..] } else { words } {
            for (other, called) in items.iter().enumerate() {
                let is_called = match called.owner {
                    Owner::Dwelling(index) => survey.means_dwelling(word, index),
                    Owner::Desk(index) => survey.means_desk(word, index),
                    Owner::Entrance(_) => false,
                };
                if is_called {
                    joined.join(caller, other);
                }
            }
        }
    }
    // Those who are decided to be on one run.
    for item in 0..items.len() {
        let group = |item: usize| items[item].locks.together.map(|(group, _)| group);
        let first = (0..item).find(|first| group(*first).is_some() && group(*first) == group(item));
        if let Some(first) = first {
            joined.join(first, item);
        }
    }
    // Whom nobody calls goes with its neighbours.
    let is_caller = |item: &usize| !matches!(items[*item].owner, Owner::Dwelling(_));
    let has_caller: Vec<usize> = (0..items.len()).filter(is_caller).map(|item| joined.first(item)).collect();
    let served: Vec<usize> =
        (0..items.len()).filter(|item| has_caller.contains(&joined.first(*item))).collect();
    for item in 0..items.len() {
        if has_caller.contains(&joined.first(item)) {
            continue;
        }
        let length = |other: &usize| {
            instance.way(items[item].place, items[*other].place).map_or(u64::MAX, |way| way.length_mm)
        };
        let nearest = served.iter().copied().min_by_key(|other| (length(other), *other));
        joined.join(item, nearest.unwrap_or(0));
    }
    let mut groups: Vec<Vec<usize>> = vec![Vec::new(); items.len()];
    for item in 0..items.len() {
        groups[joined.first(item)].push(item);
    }
    groups.retain(|group| !group.is_empty());
    groups
}

/// Sets that are joined; each is known by its first item.
struct Joined {
    above: Vec<usize>,
}

impl Joined {
    fn first(&self, item: usize) -> usize {
        let mut at = item;
        while self.above[at] != at {
            at = self.above[at];
        }
        at
    }

    fn join(&mut self, a: usize, b: usize) {
        let (a, b) = (self.first(a), self.first(b));
        self.above[a.max(b)] = a.min(b);
    }
}
