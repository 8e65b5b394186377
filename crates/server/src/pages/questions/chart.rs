//! Stations by length or spacing, as steps: between two lengths holds what holds at the greater one.

use super::ruler::Ruler;
use latchline_finding::Language;
use latchline_words::office::Label;
use maud::{Markup, html};

/// Steps that an axis of whole numbers is lettered in.
const STEPS: [usize; 8] = [1, 2, 5, 10, 20, 25, 50, 100];
/// Most letters of it beside nought.
const MOST_TICKS: usize = 5;

/// Letters of an axis of whole numbers that reaches to the greatest, evenly spaced.
fn whole_ticks(greatest: usize) -> Vec<usize> {
    let greatest = greatest.max(1);
    let fits = STEPS.into_iter().find(|step| greatest.div_ceil(*step) <= MOST_TICKS);
    let step = fits.unwrap_or_else(|| greatest.div_ceil(MOST_TICKS));
    (0..=greatest.div_ceil(step)).map(|tick| tick * step).collect()
}

/// The chart: the curve, and the point that was asked for.
pub(crate) fn chart(curve: &[(f64, usize)], at: (f64, usize), ruler: &Ruler, language: Language) -> Markup {
    let ticks = whole_ticks(curve.iter().map(|(_, stations)| *stations).chain([at.1]).max().unwrap_or(1));
    let top_value = ticks.last().copied().unwrap_or(1) as f64;
    let (width, height, left, top) = (640.0, 220.0, 40.0, 14.0);
    let x = |metres: f64| left + metres / ruler.most_m() * (width - left - 30.0);
    let y = |stations: f64| top + (top_value - stations) / top_value * (height - top - 34.0);
    let mut path = String::new();
    let mut last = None;
    for (length_m, stations) in curve {
        match last {
            None => path.push_str(&format!("M{:.1} {:.1}", x(0.0), y(*stations as f64))),
            Some(_) => path.push_str(&format!("V{:.1}", y(*stations as f64))),
        }
        path.push_str(&format!("H{:.1}", x(*length_m)));
        last = Some(*stations);
    }
    let point = (x(at.0), y(at.1 as f64));
    let label = format!("{}: {} × {}", ruler.words(at.0), at.1, Label::Stations.say(language));
    html! {
        svg.chart viewBox={ "0 0 " (width) " " (height) } role="img" aria-label=(label) {
            @for stations in &ticks {
                @let level = y(*stations as f64);
                line.grid x1=(left) x2=(width - 30.0) y1=(format!("{level:.1}")) y2=(format!("{level:.1}")) {}
                text x=(left - 8.0) y=(format!("{:.1}", level + 4.0)) text-anchor="end" { (stations) }
            }
            @for metres in ruler.ticks_m() { text x=(format!("{:.1}", x(metres))) y=(height - 8.0) text-anchor="middle" { (ruler.words(metres)) } }
            path.curve d=(path) {}
            line.here x1=(format!("{:.1}", point.0)) x2=(format!("{:.1}", point.0)) y1=(top) y2=(height - 30.0) {}
            circle cx=(format!("{:.1}", point.0)) cy=(format!("{:.1}", point.1)) r="5" {}
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn letters_of_the_axis_are_whole_even_and_reach_to_the_greatest() {
        assert_eq!(whole_ticks(10), [0, 2, 4, 6, 8, 10]);
        assert_eq!(whole_ticks(7), [0, 2, 4, 6, 8]);
        assert_eq!(whole_ticks(0), [0, 1]);
        for greatest in 1..=400 {
            let ticks = whole_ticks(greatest);
            let step = ticks[1];
            assert!(ticks.windows(2).all(|two| two[1] - two[0] == step) && ticks.len() <= 6, "{ticks:?}");
            assert!(
                ticks.last().is_some_and(|last| *last >= greatest && last - step < greatest),
                "{ticks:?}"
            );
        }
    }
}
