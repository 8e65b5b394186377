//! What a client can take back, from the history alone: nothing else is kept for it, so it lasts as long as the site.

use crate::StoreError;
use crate::database::Statements;
use crate::revision::{Kind, Number, SiteId};

/// What undo and redo of one client turn to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(crate) struct Stack {
    /// The last change that stands.
    pub undo: Option<Number>,
    /// The last undo after which nothing new was made.
    pub redo: Option<Number>,
}

impl Stack {
    /// Of the revisions of a client.
    pub fn of(statements: &mut dyn Statements, site: SiteId, client: &str) -> Result<Self, StoreError> {
        let sql =
            "select number, kind, takes_back from revision where site = $1 and client = $2 order by number";
        let rows = statements.rows(sql, &[site.0.into(), client.into()])?;
        let revisions = rows
            .iter()
            .map(|row| (Number(row.integer(0)), Kind::of_word(&row.text(1)), row.optional(2).map(Number)));
        // Somebody else may have taken a change back that is this client's.
        let taken = statements.rows(
            "select takes_back from revision where site = $1 and client <> $2 and kind = 'undo'",
            &[site.0.into(), client.into()],
        )?;
        let taken: Vec<Number> = taken.iter().filter_map(|row| row.optional(0)).map(Number).collect();
        Ok(Stack::replay(revisions, &taken))
    }

    fn replay(revisions: impl Iterator<Item = (Number, Kind, Option<Number>)>, taken: &[Number]) -> Self {
        let (mut undo, mut redo): (Vec<Number>, Vec<Number>) = (Vec::new(), Vec::new());
        for (number, kind, of) in revisions {
            match kind {
                Kind::Undo => {
                    undo.retain(|one| Some(*one) != of);
                    redo.push(number);
                }
                Kind::Redo => {
                    redo.retain(|one| Some(*one) != of);
                    undo.push(number);
                }
                // The first cannot be taken back, and what is aside never was in force.
                Kind::First | Kind::Aside => {}
                Kind::Edit | Kind::BroughtBack | Kind::Outside => {
                    undo.push(number);
                    redo.clear();
                }
            }
        }
        undo.retain(|one| !taken.contains(one));
        redo.retain(|one| !taken.contains(one));
        Stack { undo: undo.last().copied(), redo: redo.last().copied() }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn stack(revisions: &[(Kind, i64)]) -> (Option<i64>, Option<i64>) {
        let revisions = revisions
            .iter()
            .enumerate()
            .map(|(at, (kind, of))| (Number(at as i64 + 1), *kind, Some(Number(*of))));
        let stack = Stack::replay(revisions, &[]);
        (stack.undo.map(|number| number.0), stack.redo.map(|number| number.0))
    }

    #[test]
    fn undo_and_redo_walk_over_the_history() {
        use Kind::{Edit, First, Redo, Undo};
        assert_eq!(stack(&[(First, 0)]), (None, None));
        let mut history = vec![(First, 0), (Edit, 0), (Edit, 0)];
        assert_eq!(stack(&history), (Some(3), None));
        history.push((Undo, 3));
        assert_eq!(stack(&history), (Some(2), Some(4)));
        history.push((Undo, 2));
        assert_eq!(stack(&history), (None, Some(5)));
        history.push((Redo, 5));
        assert_eq!(stack(&history), (Some(6), Some(4)));
        history.push((Redo, 4));
        assert_eq!(stack(&history), (Some(7), None));
        history.push((Undo, 7));
        assert_eq!(stack(&history), (Some(6), Some(8)));
        history.push((Edit, 0));
        assert_eq!(stack(&history), (Some(9), None));
    }
}
