//! Submitting: a change is held against the head, and becomes a revision, changes nothing, or is a conflict that shows both.

use crate::StoreError;
use crate::database::{Statements, Value};
use crate::rebase::{Refused, bring_files, take_back};
use crate::revision::{Kind, Number, Revision, SiteId, State};
use crate::rows::{New, head_number, insert, no_site, one_revision, state};
use crate::stack::Stack;
use crate::store::{Store, check_signed};
use crate::submission::{Conflict, LONGEST_ID, Outcome, Proposal, Submission};
use crate::texts::{Texts, check_words};
use latchline_words::refusals::{KeptThing, UnfitWords};

/// What a proposal makes of the head.
struct Made {
    kind: Kind,
    of: Option<Number>,
    /// The texts, or why not; `None`: there is nothing to do.
    texts: Option<Result<Texts, Refused>>,
}

impl Store {
    /// Applies a change to the newest revision, wherever all that it expects still stands; see [`Outcome`]. What is answered with
    /// [`Outcome::Accepted`] is on the medium.
    ///
    /// # Errors
    /// If there is no such site or base, an id is used twice for different things, something cannot be kept, or the store cannot be
    /// written. Nothing was changed then.
    pub fn submit(&self, site: SiteId, submission: &Submission) -> Result<Outcome, StoreError> {
        if submission.id.is_empty() {
            return Err(StoreError::unfit(&UnfitWords::Empty { what: KeptThing::EditId }));
        }
        check_words(KeptThing::EditId, &submission.id, LONGEST_ID)?;
        check_signed(&submission.signed)?;
        let digest = submission.digest();
        self.write(|statements| match self.answered(statements, site, submission, &digest)? {
            Some(outcome) => Ok(outcome),
            None => self.decide(statements, site, submission, &digest),
        })
    }

    /// The answer that was given to this id, if there was one.
    fn answered(
        &self,
        statements: &mut dyn Statements,
        site: SiteId,
        submission: &Submission,
        digest: &str,
    ) -> Result<Option<Outcome>, StoreError> {
        let sql = "select digest, outcome, against, target from submission where site = $1 and id = $2";
        let Some(row) = statements.row(sql, &[site.0.into(), submission.id.as_str().into()])? else {
            return Ok(None);
        };
        if row.text(0) != digest {
            return Err(StoreError::IdReused(latchline_finding::shown::name(&submission.id).into_owned()));
        }
        let against = Number(row.integer(2));
        Ok(Some(match row.text(1).as_str() {
            "accepted" => Outcome::Accepted(one_revision(statements, site, against)?),
            "unchanged" => Outcome::Unchanged(one_revision(statements, site, against)?),
            // The same texts held against each other meet in the same places.
            _ => {
                let head = state(statements, self.place(), site, against)?;
                let target = row.optional(3).map(Number);
                let made = self.make(statements, site, &submission.proposal, target, &head)?;
                match made.texts {
                    Some(Err(refused)) => conflict(&submission.proposal, &made.of, against, refused),
                    _ => Outcome::Unchanged(head.revision),
                }
            }
        }))
    }

    fn decide(
        &self,
        statements: &mut dyn Statements,
        site: SiteId,
        submission: &Submission,
        digest: &str,
    ) -> Result<Outcome, StoreError> {
        let number = head_number(statements, site)?;
        let head = state(statements, self.place(), site, number)?;
        let target = match submission.proposal {
            Proposal::Undo => Stack::of(statements, site, &submission.signed.client)?.undo,
            Proposal::Redo => Stack::of(statements, site, &submission.signed.client)?.redo,
            _ => None,
        };
        let made = self.make(statements, site, &submission.proposal, target, &head)?;
        let (outcome, word, against) = match made.texts {
            Some(Ok(texts)) if texts != head.texts => {
                let raised = raise(statements, site, number)?;
                let signed = &submission.signed;
                let new = New {
                    number: raised,
                    parent: Some(number),
                    kind: made.kind,
                    of: made.of,
                    texts: &texts,
                    signed,
                };
                let revision = insert(statements, site, &new, Some(&head.texts))?;
                (Outcome::Accepted(revision), "accepted", raised)
            }
            Some(Err(refused)) => {
                (conflict(&submission.proposal, &made.of, number, refused), "conflict", number)
            }
            _ => (Outcome::Unchanged(head.revision), "unchanged", number),
        };
        let values: [Value; 7] = [
            site.0.into(),
            submission.id.as_str().into(),
            digest.into(),
            word.into(),
            against.0.into(),
            made.of.map(|number| number.0).into(),
            submission.signed.at_ms.into(),
        ];
        statements.run(
            "insert into submission (site, id, digest, outcome, against, target, at_ms)
             values ($1, $2, $3, $4, $5, $6, $7)",
            &values,
        )?;
        Ok(outcome)
    }

    /// What a proposal makes of a head. `target` is what undo or redo turns to.
    fn make(
        &self,
        statements: &mut dyn Statements,
        site: SiteId,
        proposal: &Proposal,
        target: Option<Number>,
        head: &State,
    ) -> Result<Made, StoreError> {
        let mut at = |number: Number| {
            if number == head.revision.number {
                return Ok(head.clone());
            }
            state(statements, self.place(), site, number)
        };
        let made = |kind, of, texts| Ok(Made { kind, of, texts });
        match proposal {
            Proposal::Change { base, files } => {
                let base = at(*base)?;
                made(Kind::Edit, None, Some(bring_files(&base.texts, &head.texts, files)?))
            }
            Proposal::Undo | Proposal::Redo | Proposal::TakeBack(_) => {
                let target = match proposal {
                    Proposal::TakeBack(number) => Some(*number),
                    _ => target,
                };
                let kind = if *proposal == Proposal::Redo { Kind::Redo } else { Kind::Undo };
                let Some(target) = target else { return made(kind, None, None) };
                let after = at(target)?;
                if after.revision.kind == Kind::Aside {
                    return Err(StoreError::unfit(&UnfitWords::NotOfTheSite));
                }
                let Some(parent) = after.revision.parent else {
                    return Err(StoreError::unfit(&UnfitWords::FirstRevision));
                };
                let before = at(parent)?;
                made(kind, Some(target), Some(take_back(&after.texts, &before.texts, &head.texts)?))
            }
            Proposal::BringBack { base, revision } => {
                let old = at(*revision)?;
                let texts = if *base == head.revision.number {
                    Ok(old.texts)
                } else {
                    at(*base)?;
                    Err(Refused::moved(&old.texts))
                };
                made(Kind::BroughtBack, Some(*revision), Some(texts))
            }
        }
    }
}

fn conflict(proposal: &Proposal, of: &Option<Number>, head: Number, refused: Refused) -> Outcome {
    let base = match proposal {
        Proposal::Change { base, .. } | Proposal::BringBack { base, .. } => Some(*base),
        _ => *of,
    };
    Outcome::Conflict(Box::new(Conflict { base, head, clashes: refused.clashes, wanted: refused.wanted }))
}

/// Raises the head, if it is still where it was read, to a number that was never used.
pub(crate) fn raise(
    statements: &mut dyn Statements,
    site: SiteId,
    from: Number,
) -> Result<Number, StoreError> {
    let next = next_number(statements, site)?;
    let sql = "update site set head = $1, last = $1 where id = $2 and head = $3 and last = $4";
    let values: [Value; 4] = [next.0.into(), site.0.into(), from.0.into(), (next.0 - 1).into()];
    match statements.run(sql, &values)? {
        1 => Ok(next),
        _ => Err(StoreError::Overtaken),
    }
}

/// The number after the last that was used.
pub(crate) fn next_number(statements: &mut dyn Statements, site: SiteId) -> Result<Number, StoreError> {
    let row = statements.row("select last + 1 from site where id = $1", &[site.0.into()])?;
    row.map(|row| Number(row.integer(0))).ok_or_else(|| no_site(site))
}

/// What a client can take back or make again.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Turns {
    /// The revision that undo takes back.
    pub undo: Option<Revision>,
    /// The revision that redo takes back: an undo.
    pub redo: Option<Revision>,
}

impl Store {
    /// What undo and redo of a client would turn to.
    ///
    /// # Errors
    /// If there is no such site.
    pub fn turns(&self, site: SiteId, client: &str) -> Result<Turns, StoreError> {
        self.read(|statements| {
            head_number(statements, site)?;
            let stack = Stack::of(statements, site, client)?;
            let mut named = |number: Option<Number>| {
                number.map(|number| one_revision(statements, site, number)).transpose()
            };
            Ok(Turns { undo: named(stack.undo)?, redo: named(stack.redo)? })
        })
    }
}
