//! Call groups: stations that call only among themselves, and so may hang on a bus of their own.

use crate::instance::Instance;
use crate::item::Owner;
use crate::items::reaches;

/// Items by group, each in the order of the survey, the groups in the order of their first item. A scope that is not understood joins
/// everything: what might be called must be within reach of the wires.
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
            let mut anyone = false;
            for (other, called) in items.iter().enumerate() {
                let is_called = match called.owner {
                    Owner::Dwelling(index) => reaches(survey, word, index),
                    Owner::Desk(_) => word == "everyone" || word == "management" || *word == called.name,
                    Owner::Entrance(_) => false,
                };
                if is_called {
                    anyone = true;
                    joined.join(caller, other);
                }
            }
            if !anyone {
                (0..items.len()).for_each(|other| joined.join(caller, other));
            }
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
