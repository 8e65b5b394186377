//! The nearest valid names to one that is not.

/// Longest text that is compared; anything longer is no slip of the finger.
const LONGEST_COMPARED: usize = 48;
/// Most comparisons in one pass, so that a file full of wrong names stays linear.
const MOST_COMPARISONS: usize = 400_000;
/// What asking for the neighbours of an overlong name costs.
const COST_OF_LONG_NAME: usize = 4000;
/// Most names that are offered.
const MOST_OFFERED: usize = 3;
/// Longest text of a user that is repeated in a message, in characters.
const LONGEST_REPEATED: usize = 80;

/// Limits how much work one pass spends on suggestions.
#[derive(Debug, Clone)]
pub struct NameBudget {
    comparisons_left: usize,
}

impl Default for NameBudget {
    fn default() -> Self {
        Self { comparisons_left: MOST_COMPARISONS }
    }
}

impl NameBudget {
    /// Whether nothing is left to spend: then names need not be gathered.
    pub fn is_spent(&self) -> bool {
        self.comparisons_left == 0
    }

    /// The names nearest to `wrong`, best first; empty if none is near.
    pub fn nearest<'n>(&mut self, wrong: &str, names: impl IntoIterator<Item = &'n str>) -> Vec<String> {
        if wrong.len() > LONGEST_COMPARED {
            // Callers may have gathered names for this; that must not be free either.
            self.comparisons_left = self.comparisons_left.saturating_sub(COST_OF_LONG_NAME);
            return Vec::new();
        }
        let lower = wrong.to_lowercase();
        let mut near: Vec<(usize, &str)> = Vec::new();
        for name in names {
            if self.comparisons_left == 0 {
                break;
            }
            self.comparisons_left -= 1;
            // Two slips in a short name, more in a longer one; half of the name is no slip.
            let allowed = (wrong.chars().count().max(name.chars().count()) / 3).clamp(1, 4);
            if name.len() > LONGEST_COMPARED || name.len().abs_diff(lower.len()) > 2 * allowed {
                continue;
            }
            let distance = strsim::damerau_levenshtein(&lower, &name.to_lowercase());
            if distance <= allowed {
                near.push((distance, name));
            }
        }
        near.sort();
        near.dedup();
        near.truncate(MOST_OFFERED);
        near.into_iter().map(|(_, name)| name.to_string()).collect()
    }
}

/// A user's text, shortened if it is absurdly long, for repeating in a message.
pub fn clip(text: &str) -> String {
    match text.char_indices().nth(LONGEST_REPEATED) {
        Some((end, _)) => format!("{}…", &text[..end]),
        None => text.to_string(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn slips_find_their_name_and_strangers_do_not() {
        let names = ["pair-0.8", "pair-0.6", "flex-1.5", "cat-5e"];
        let nearest = |wrong: &str| NameBudget::default().nearest(wrong, names);
        assert_eq!(nearest("pair-08")[0], "pair-0.8");
        assert_eq!(nearest("PAIR-0.8")[0], "pair-0.8");
        assert_eq!(nearest("felx-1.5"), ["flex-1.5"]);
        assert!(nearest("submarine").is_empty());
        assert!(nearest(&"x".repeat(10_000)).is_empty());
    }

    #[test]
    fn long_texts_are_clipped_between_characters() {
        assert_eq!(clip("short"), "short");
        assert_eq!(clip(&"ä".repeat(500)).chars().count(), LONGEST_REPEATED + 1);
    }
}
