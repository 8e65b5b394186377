//! A change looked at as far as it takes to rule it out.

use super::Bench;
use super::known::{Made, Shown, Sketch, Wanted};
use crate::first_look;
use crate::outcome::{Outcome, gaps, key};
use latchline_assess::{NotJudged, assess_trial};
use latchline_finding::{Edit, Finding, Severity};
use latchline_site::model::Site;
use std::cell::RefCell;
use std::sync::Arc;

impl Bench<'_> {
    /// Assesses a change, wanting a finding gone: `None` if it stays, or another comes that may not. One that is no error may, where an
    /// error goes.
    ///
    /// A change that leaves the finding in the very state in which it was found is ruled out by that alone. A trial ends at the
    /// first rule that rules it out. A start-up that drops out again and again is not followed to its end,
    /// so a change may be ruled out that would do.
    pub(super) fn judge(
        &self,
        change: &Edit,
        sketch: Option<Sketch>,
        wanted: Wanted<'_>,
    ) -> Option<Arc<Outcome>> {
        let key = wanted.key();
        let known = {
            let changes = self.known_changes.lock().ok()?;
            let known = changes.get(change)?;
            known.price?;
            // A lesser form is looked for only where one was seen.
            let is_left = known.leaves.contains(&key);
            if known.spoils
                || is_left != wanted.may_lessen
                || wanted.may_lessen && !known.lessens.contains(&key)
            {
                return None;
            }
            known.outcome.clone()
        };
        let outcome = match known {
            Some(outcome) => outcome,
            None => self.tried(change, sketch, wanted)?,
        };
        self.mends(&outcome, wanted).then_some(outcome)
    }

    fn mends(&self, outcome: &Outcome, wanted: Wanted<'_>) -> bool {
        let stays = outcome.severity.get(&wanted.key());
        let is_mended = stays.is_none_or(|left| wanted.may_lessen && *left < wanted.finding.severity);
        let error_goes =
            || self.errors.iter().any(|error| outcome.severity.get(error) != Some(&Severity::Error));
        is_mended
            && (outcome.found.is_subset(&self.known) || error_goes())
            && outcome.gaps.is_subset(&self.gaps)
    }

    /// What comes of a change that mends a finding when it goes the whole way through the text. `None` if it does not mend it after all.
    ///
    /// Where the changed text, read again, says what was judged already, the judgement holds of it; else it is judged anew.
    pub(super) fn through_text(&self, change: &Edit, wanted: Wanted<'_>) -> Option<Arc<Outcome>> {
        let (outcome, made) = {
            let changes = self.known_changes.lock().ok()?;
            let known = changes.get(change)?;
            (known.outcome.clone(), known.made)
        };
        if outcome.is_some() && (made == Made::Written || self.is_said_by_text(change, made) == Some(true)) {
            if let Ok(mut changes) = self.known_changes.lock()
                && let Some(known) = changes.get_mut(change)
            {
                known.made = Made::Written;
            }
            return outcome.filter(|outcome| self.mends(outcome, wanted));
        }
        let mut shown = Shown::default();
        self.try_out(&self.by_text(change)?, wanted, &mut shown);
        let outcome = self.keep(change, shown, Made::Written);
        outcome.filter(|outcome| self.mends(outcome, wanted))
    }

    /// Looks at a change, first at what was found and then as far as it takes to rule it out, and keeps what that shows.
    fn tried(&self, change: &Edit, sketch: Option<Sketch>, wanted: Wanted<'_>) -> Option<Arc<Outcome>> {
        let sketch = sketch.or_else(|| self.sketch(change))?;
        let left = first_look::left_by(&self.seen(), &sketch.site, wanted.finding);
        let mut shown =
            Shown { spoils: left.iter().any(|key| !self.known.contains(key)), ..Shown::default() };
        let is_ruled_out = shown.spoils || left.contains(&wanted.key());
        shown.leaves.extend(left);
        if !is_ruled_out {
            self.try_out(&sketch.site, wanted, &mut shown);
        }
        self.keep(change, shown, sketch.made)
    }

    /// Keeps what a look at a change showed.
    fn keep(&self, change: &Edit, shown: Shown, made: Made) -> Option<Arc<Outcome>> {
        let Shown { spoils, leaves, lessens, outcome } = shown;
        if let Ok(mut changes) = self.known_changes.lock()
            && let Some(known) = changes.get_mut(change)
        {
            known.spoils |= spoils;
            known.leaves.extend(leaves);
            known.lessens.extend(lessens);
            known.outcome.clone_from(&outcome);
            known.made = made;
        }
        outcome
    }

    /// Assesses a changed site, as far as it takes to rule it out. What was there before may stay, but not come worse as an error.
    fn try_out(&self, site: &Site, wanted: Wanted<'_>, shown: &mut Shown) {
        let wanted_key = wanted.key();
        let seen = RefCell::new(std::mem::take(shown));
        let allowed = |found: &Finding| {
            let key = key(found);
            let shown = &mut *seen.borrow_mut();
            let may_come = found.severity < Severity::Error && !self.errors.is_empty();
            let may_stand = may_come || self.severity.get(&key).is_some_and(|known| found.severity <= *known);
            let is_lesser = key == wanted_key && found.severity < wanted.finding.severity;
            let allowed = may_stand && (key != wanted_key || is_lesser && wanted.may_lessen);
            shown.spoils |= !may_stand;
            if self.severity.get(&key).is_some_and(|known| found.severity < *known) {
                shown.lessens.insert(key.clone());
            }
            shown.leaves.insert(key);
            allowed
        };
        let may_lack = |entry: &NotJudged| {
            let may_lack = gaps(std::slice::from_ref(entry)).is_subset(&self.gaps);
            seen.borrow_mut().spoils |= !may_lack;
            may_lack
        };
        let asked = Some(wanted.finding.code);
        let assessment = assess_trial(site, &self.memory, asked, &allowed, &may_lack);
        *shown = seen.into_inner();
        shown.outcome = assessment.as_ref().map(Outcome::of).map(Arc::new);
    }
}
