//! What stands on the page of a fault.

use super::asked::{Asked, Known};
use crate::pages::shell::encoded;
use latchline_answer::{Again, AsDrawnOf, Piece, Reader, Said, whole, whole_question};
use latchline_finding::{CallMoment, Language, Locale, StateKind};
use latchline_locate::{Age, Located, Options, Plant, Question, SymptomKind, Taken, places, written};
use latchline_scene::{Palette, Scene, svg};
use latchline_words::locate::Problem;
use latchline_words::office::Label;
use latchline_words::states;
use maud::{Markup, PreEscaped, html};

/// Moments of a call that a reading may be of.
const MOMENTS: [(CallMoment, Label); 3] = [
    (CallMoment::Ringing, Label::WhileRinging),
    (CallMoment::Talking, Label::WhileTalking),
    (CallMoment::Releasing, Label::WhileReleasing),
];

/// What was found.
pub(super) struct Found<'a> {
    pub plant: &'a Plant<'a>,
    pub reader: &'a Reader<'a>,
    pub known: &'a Known,
    pub drawn: &'a [AsDrawnOf<'a>],
    pub question: Option<&'a Question>,
    pub located: &'a Located,
    pub options: &'a Options,
    pub pictures: Option<[(&'static str, Vec<Scene>); 3]>,
    /// Errors that the site as drawn has.
    pub errors: usize,
}

/// The page between menu and foot.
pub(super) fn content(found: &Found<'_>, name: &str, site: &str, asked: &Asked, locale: Locale) -> Markup {
    let language = locale.language;
    let say = |label: Label| label.say(language);
    let action = format!("{site}/fault");
    html! {
        div.ask.asks-first[found.known.items.is_empty()] {
            section.panel {
                p { a href=(site) { "← " (name) } }
                h1 { (say(Label::FindFault)) }
                (known(found, asked, &action, language))
                (told_form(found, asked, &action, language))
                (read_form(found, asked, &action, language))
                (age_form(found, asked, &action, language))
                datalist #places { @for (place, _) in places(found.plant.site) { option value=(place) {} } }
                datalist #stations { @for station in &found.plant.site.stations { option value=(station.id) {} } }
            }
            section.panel.answer {
                div #answer {
                    @if !found.known.problems.is_empty() {
                        div.notice role="alert" {
                            @for problem in &found.known.problems { p { (problem) } }
                        }
                    }
                    (answer(found, asked, &action, language))
                }
                div.buttons.no-print {
                    button type="button" data-copy-link { (say(Label::CopyLink)) }
                    button type="button" data-print { (say(Label::Print)) }
                }
            }
        }
        @if let Some(pictures) = &found.pictures {
            section.sheet.pictures {
                h2 { (say(Label::Pictures)) }
                @for (_, scenes) in pictures {
                    @for scene in scenes {
                        figure.drawn { div.scroll tabindex="0" role="region" aria-label=(scene.title) { (PreEscaped(svg::svg(scene, Palette::Light))) } }
                    }
                }
            }
        }
    }
}

/// What every form carries on.
fn carried(found: &Found<'_>, asked: &Asked) -> Markup {
    html! {
        input type="hidden" name="given" value=(found.known.given());
        input type="hidden" name="age" value=(asked.age);
    }
}

/// What is known so far, each with a way to leave it out.
fn known(found: &Found<'_>, asked: &Asked, action: &str, language: Language) -> Markup {
    let given = encoded(&found.known.given());
    html! {
        h2 { (Label::KnownSoFar.say(language)) }
        @if found.known.items.is_empty() { p.quiet { (Label::NothingKnownYet.say(language)) } }
        ul.items {
            @for (line, item) in found.known.items.iter().enumerate() {
                li {
                    code { (item) } " "
                    a href={ (action) "?given=" (given) "&without=" (line) "&age=" (encoded(&asked.age)) } aria-label={ (Label::LeaveOut.say(language)) ": " (item) } { (Label::LeaveOut.say(language)) }
                }
            }
        }
    }
}

fn told_form(found: &Found<'_>, asked: &Asked, action: &str, language: Language) -> Markup {
    let say = |label: Label| label.say(language);
    let kinds = SymptomKind::ALL.iter().copied().filter(|kind| *kind != SymptomKind::Found);
    html! {
        form method="get" action=(action) {
            h2 { (say(Label::WhatIsTold)) }
            (carried(found, asked))
            div.field { label for="told_at" { (say(Label::Station)) } input #told_at name="told_at" list="stations" maxlength="60" autocomplete="off" required; }
            div.field {
                label for="told" { (say(Label::What)) }
                select #told name="told" required { option value="" { "–" } @for kind in kinds { option value=(kind.name()) { (kind.say(language)) } } }
            }
            div.buttons { button type="submit" { (say(Label::Add)) } }
        }
    }
}

fn read_form(found: &Found<'_>, asked: &Asked, action: &str, language: Language) -> Markup {
    let say = |label: Label| label.say(language);
    html! {
        form method="get" action=(action) {
            h2 { (say(Label::WhatIsRead)) }
            (carried(found, asked))
            div.field { label for="at" { (say(Label::ReadAt)) } input #at name="at" list="places" maxlength="60" autocomplete="off" required; }
            div.field { label for="value" { (say(Label::ValueWithUnit)) } input #value name="value" maxlength="30" placeholder="33.5 V" autocomplete="off" required; }
            div.field {
                label for="state" { (say(Label::When)) }
                select #state name="state" {
                    option value="" { (states::name(&StateKind::StandbyDay.into(), language)) }
                    @for (moment, label) in MOMENTS { option value=(moment.name()) selected[asked.state == moment.name()] { (say(label)) } }
                }
            }
            div.field { label for="of" { (say(Label::WhoIsCalled)) } input #of name="of" list="stations" maxlength="60" autocomplete="off"; }
            div.field {
                label for="taken" { (say(Label::HowRead)) }
                select #taken name="taken" {
                    @for (taken, label) in Taken::ALL.into_iter().zip([Label::StoodStill, Label::Jumped, Label::LeastHeld]) { option value=(taken.name()) { (say(label)) } }
                }
            }
            div.buttons { button type="submit" { (say(Label::Add)) } }
        }
    }
}

fn age_form(found: &Found<'_>, asked: &Asked, action: &str, language: Language) -> Markup {
    let say = |label: Label| label.say(language);
    let is_new = found.options.age == Age::FirstMonth;
    html! {
        form method="get" action=(action) {
            input type="hidden" name="given" value=(found.known.given());
            div.field {
                label for="age" { (say(Label::HowOld)) }
                select #age name="age" {
                    option value="in-service" { (say(Label::InService)) }
                    option value="first-month" selected[is_new] { (say(Label::FirstMonth)) }
                }
            }
            input type="hidden" name="state" value=(asked.state);
            div.buttons { button type="submit" { (say(Label::Answer)) } }
        }
    }
}

/// The answer: what the site as drawn says first where nothing was read, then what is most likely, then what to read next.
fn answer(found: &Found<'_>, asked: &Asked, action: &str, language: Language) -> Markup {
    let mut notes = Vec::new();
    if found.errors > 0 {
        notes.push(Problem::SiteFails { errors: found.errors }.say(language));
    }
    let evidence = &found.known.evidence;
    let first_read = found.drawn.iter().filter(|_| evidence.measured.is_empty());
    let first_read = first_read.filter_map(|one| one.reading.as_ref()).map(|one| &one.quantity).next();
    let again = Again { plant: found.plant, asked: None, first_read };
    let said = whole(found.reader, evidence, found.located, found.options, &notes, Some(&again));
    let drawn: Vec<Said> = found.drawn.iter().map(|one| one.whole(found.reader, None)).collect();
    let drawn = html! { @for one in &drawn { section.drawn-says { (pieces(one)) } } };
    let asked_first = found.question.map(|question| pieces(&whole_question(found.reader, question, None)));
    html! {
        @if evidence.measured.is_empty() { (drawn) }
        @if let Some(question) = asked_first { section { (question) } }
        section.located {
            @for (number, part) in said.0.split(|piece| *piece == Piece::Gap).enumerate() {
                @let all = blocks(part);
                // The box stands below what the outcomes of the reading would mean, which the second part ends its lists with.
                @let last = all.iter().rposition(|(_, items)| !items.is_empty()).filter(|_| number == 1);
                @for (at, one) in all.iter().enumerate() {
                    (block(one))
                    @if Some(at) == last { (next_form(found, asked, action, language)) }
                }
            }
        }
        @if !evidence.measured.is_empty() { (drawn) }
    }
}

/// The box for the reading that is proposed.
fn next_form(found: &Found<'_>, asked: &Asked, action: &str, language: Language) -> Markup {
    let Some(next) = &found.located.next else { return html! {} };
    html! {
        form.next.no-print method="get" action=(action) {
            (carried(found, asked))
            input type="hidden" name="next" value=(written(found.plant, &next.quantity));
            div.field {
                label for="next_value" { (found.reader.reading(&next.quantity)) }
                input #next_value name="next_value" maxlength="30" placeholder=(next.quantity.unit().symbol()) autocomplete="off" required;
            }
            div.buttons { button.main type="submit" { (Label::Add.say(language)) } }
        }
    }
}

/// Sentences, and the list that they announce.
type Block<'s> = (Option<&'s str>, Vec<&'s str>);

fn blocks(said: &[Piece]) -> Vec<Block<'_>> {
    let mut blocks: Vec<Block<'_>> = Vec::new();
    for piece in said {
        match piece {
            Piece::Paragraph(words) => blocks.push((Some(words), Vec::new())),
            Piece::Item(words) => match blocks.last_mut() {
                Some((_, items)) => items.push(words),
                None => blocks.push((None, vec![words])),
            },
            Piece::Gap => {}
        }
    }
    blocks
}

fn block((words, items): &Block<'_>) -> Markup {
    html! {
        @if let Some(words) = words { p { (words) } }
        @if !items.is_empty() { ul { @for item in items { li { (item) } } } }
    }
}

/// All of it, one after the other.
fn pieces(said: &Said) -> Markup {
    html! { @for one in &blocks(&said.0) { (block(one)) } }
}
