//! What findings say: one file a code, named like its rule. It holds the title, the message, what stands at the place,
//! what to do, what to measure first where it shows on site, and the manual page that `explain` prints, each in English and in German.

use crate::template::Lists;
use crate::{of_finding, template};
use latchline_finding::{Argument, Finding, Language, Locale};

/// The words of one code: English, German. See [`template`] for the language of message, label and hint.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct CodeWords {
    /// The code.
    pub code: &'static str,
    /// What it says, in a few words.
    title: [&'static str; 2],
    /// The same in the room that a card on a drawing has; may be empty.
    short: [&'static str; 2],
    /// What is wrong, in one sentence without full stop.
    message: [&'static str; 2],
    /// What stands beside the caret; may be empty.
    label: [&'static str; 2],
    /// What to do; may be empty.
    hint: [&'static str; 2],
    /// What to measure first where it shows on site; may be empty.
    measure: [&'static str; 2],
    /// The manual page: what is checked, why it matters, an example, what to do.
    page: [&'static str; 2],
}

impl CodeWords {
    /// What it says, in a few words.
    pub fn title(&self, language: Language) -> &'static str {
        crate::row::of(self.title, language)
    }

    /// What it says, as short as a card on a drawing needs it: at most [`MOST_SIGNS_SHORT`] signs. The title where no card ever says it.
    pub fn short(&self, language: Language) -> &'static str {
        match crate::row::of(self.short, language) {
            "" => self.title(language),
            short => short,
        }
    }

    /// What to measure first where it shows on site.
    pub fn measure(&self, language: Language) -> Option<&'static str> {
        Some(crate::row::of(self.measure, language)).filter(|text| !text.is_empty())
    }

    /// The manual page, without spaces and line breaks around it.
    pub fn page(&self, language: Language) -> String {
        let lines = crate::row::of(self.page, language).lines();
        let text: Vec<&str> = lines.map(|line| line.strip_prefix(' ').unwrap_or(line).trim_end()).collect();
        text.join("\n").trim_matches('\n').to_string()
    }

    /// Templates of message, label and hint.
    pub fn templates(&self, language: Language) -> [&'static str; 3] {
        [self.message, self.label, self.hint].map(|row| crate::row::of(row, language))
    }
}

/// Most signs of what a card on a drawing says of a code.
pub const MOST_SIGNS_SHORT: usize = 24;

/// A finding in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Wording {
    /// What is wrong, in one sentence without full stop.
    pub message: String,
    /// What stands beside the caret.
    pub label: Option<String>,
    /// What to do.
    pub hint: Option<String>,
}

/// The words of a code.
pub fn of(code: &str) -> Option<&'static CodeWords> {
    ALL.binary_search_by(|words| words.code.cmp(code)).ok().map(|index| ALL[index])
}

/// What a code says, in a few words; the code itself where it has none.
pub fn title_of(code: &str, language: Language) -> String {
    of(code).map_or_else(|| code.to_string(), |words| words.title(language).to_string())
}

/// What a code says, as short as a card on a drawing needs it; the code itself where it has none.
pub fn short_of(code: &str, language: Language) -> String {
    of(code).map_or_else(|| code.replace('-', " "), |words| words.short(language).to_string())
}

/// The wording of a finding. A code without words, or a message that lacks an argument, falls back to the title with
/// the element, the figures and the state, so that nothing is ever lost.
pub fn wording(finding: &Finding, locale: impl Into<Locale>) -> Wording {
    worded(finding, Lists::Counted, locale.into())
}

fn worded(finding: &Finding, lists: Lists, locale: Locale) -> Wording {
    let language = locale.language;
    let words = of(finding.code.as_str());
    let said =
        |template: &str| of_finding::filled(template, finding, lists, locale).filter(|text| !text.is_empty());
    let [message, label, hint] = words.map_or([""; 3], |words| words.templates(language));
    Wording {
        message: said(message).unwrap_or_else(|| fallback(finding, words, locale)),
        label: said(label),
        hint: said(hint),
    }
}

/// What is wrong as a sentence without full stop: with a capital letter, unless it begins with a name, which stays as it is written.
pub fn sentence(finding: &Finding, locale: impl Into<Locale>) -> String {
    in_a_sentence(finding, Lists::Counted, locale.into())
}

/// The same with every name of a list: for paper.
pub fn whole_sentence(finding: &Finding, locale: impl Into<Locale>) -> String {
    in_a_sentence(finding, Lists::Whole, locale.into())
}

fn in_a_sentence(finding: &Finding, lists: Lists, locale: Locale) -> String {
    let language = locale.language;
    let message = worded(finding, lists, locale).message;
    let template = of(finding.code.as_str()).map_or("", |words| words.templates(language)[0]);
    let element = finding.element.as_ref().map(|element| template::plain(element.as_str()));
    let is_name = template.trim_start_matches('<').starts_with('{')
        || element.is_some_and(|element| !element.is_empty() && message.starts_with(&element));
    if is_name {
        return message;
    }
    let mut signs = message.chars();
    signs.next().into_iter().flat_map(char::to_uppercase).chain(signs).collect()
}

/// Value and limit of a finding, each as its message has it, and where the message has it not, as a figure stands in a sentence.
pub fn figures(finding: &Finding, locale: impl Into<Locale>) -> [Option<String>; 2] {
    let locale = locale.into();
    let language = locale.language;
    let message = of(finding.code.as_str()).map_or("", |words| words.templates(language)[0]);
    let written = |name: &str| {
        let start = message.find(&format!("{{{name}:")).or_else(|| message.find(&format!("{{{name}}}")));
        start.and_then(|start| Some(&message[start..=start + message[start..].find('}')?]))
    };
    ["value", "limit"].map(|name| {
        let own = if name == "value" { finding.value } else { finding.limit };
        // A message that says the same figure by another name rounds it by that name.
        let by_another_name = || {
            let same =
                |argument: &Argument| matches!(argument, Argument::Figure(figure) if Some(*figure) == own);
            finding.arguments.iter().filter(|(_, one)| same(one)).find_map(|(other, _)| written(other))
        };
        let written = written(name).or_else(by_another_name);
        let plain = format!("{{{name}}}");
        of_finding::fill(written.unwrap_or(&plain), finding, locale)
    })
}

/// Title of the code, the element, the figures and the state.
fn fallback(finding: &Finding, words: Option<&CodeWords>, locale: Locale) -> String {
    let language = locale.language;
    let title = words
        .map_or_else(|| finding.code.as_str().replace('-', " "), |words| words.title(language).to_string());
    let template = match (finding.limit.is_some(), language) {
        (true, Language::English) => "<{element}: >TITLE<: {value}, limit {limit}><, {state}>",
        (true, Language::German) => "<{element}: >TITLE<: {value}, Grenzwert {limit}><, {state}>",
        (false, _) => "<{element}: >TITLE<: {value}><, {state}>",
    };
    of_finding::fill(template, finding, locale).unwrap_or_default().replacen("TITLE", &title, 1)
}

/// The row of one code.
macro_rules! code {
    (
        $code:literal
        title: $title:literal | $german_title:literal,
        $(short: $short:literal | $german_short:literal,)?
        message: $message:literal | $german_message:literal,
        $(label: $label:literal | $german_label:literal,)?
        $(hint: $hint:literal | $german_hint:literal,)?
        $(measure: $measure:literal | $german_measure:literal,)?
        english: $(#[doc = $page:literal])+
        german: $(#[doc = $german_page:literal])+
    ) => {
        pub(super) static WORDS: super::CodeWords = super::CodeWords {
            code: $code,
            title: [$title, $german_title],
            short: [concat!($($short)?), concat!($($german_short)?)],
            message: [$message, $german_message],
            label: [concat!($($label)?), concat!($($german_label)?)],
            hint: [concat!($($hint)?), concat!($($german_hint)?)],
            measure: [concat!($($measure)?), concat!($($german_measure)?)],
            page: [concat!($($page, "\n"),+), concat!($($german_page, "\n"),+)],
        };
    };
}

/// Every file of this folder, in alphabetical order.
macro_rules! files {
    ($($file:ident,)*) => {
        $(mod $file;)*

        /// The words of every code, in alphabetical order.
        pub static ALL: &[&CodeWords] = &[$(&$file::WORDS),*];
    };
}

files! {
    acceptance_without_match, accessory_chain_too_long, accessory_current_exceeded, address_duplicate,
    address_not_expressible, address_not_of_name, address_out_of_range, address_repeated, address_reserved,
    addresses_exhausted, alarm_cable_not_watched, alarm_inputs_exceeded, alarm_loop_too_long,
    alarm_tells_nobody, bad_name, battery_end_voltage_low, battery_hours_short, battery_missing, beside_mains,
    box_without_runs, branch_not_allowed, bus_of_another_family, bus_voltage_above_selv, bus_voltage_wet,
    cable_to_no_part, cable_unsuitable, call_across_buses, call_buttons_too_few, calls_do_not_fit,
    cascade_too_deep, catalogue_not_read, cell_empty, cell_not_understood, cell_out_of_range,
    cell_without_heading, cell_without_use,
    chain_not_allowed, chain_through_dwellings, charger_too_small, clad_aluminium, column_missing, column_twice,
    column_unknown, control_height, country_without_rules, decimal_comma, decisions_contradict,
    delayed_egress_too_long, directory_too_small, door_contact_cable_twice, drop_column_missing, drop_not_stated, duplicate_key,
    duplicate_name, duplicate_part, dwelling_without_entrance, end_station_looped, entrance_calls_nobody,
    entrance_without_lock, escape_advice, escape_decision_missing, escape_depends_on_bus, escape_fail_secure,
    existing_run_not_measured, exit_button_missing, extension_without_room, fed_twice, file_too_large,
    fire_interlock_missing, fire_interlock_without_effect, fire_release_through_station, floors_out_of_order, floors_upside_down, formula_without_value,
    heater_missing, hold_time_overridden, insulation_too_low, isolating_box_without_supply, length_from_loop,
    length_missing, lengths_do_not_fit, lengths_given_twice, light_feed_missing, light_feed_unsuitable,
    light_output_overloaded, line_constants_missing, link_not_wired, load_falls_in_use, lock_contact_wiring,
    lock_current_kind, lock_duty_exceeded, lock_feed_missing, lock_given_twice, lock_output_overloaded,
    lock_outputs_exceeded, lock_voltage_too_high, lock_voltage_too_low, locked_route_unknown, look_alike_name,
    loop_not_of_cable, measured_capacitance_differs, measured_loop_differs, merged_cells, missing_key,
    mixed_families, more_pairs_than_cable, name_not_usable, name_used_twice, names_made_one_word, nested_too_deeply, no_dwellings,
    no_entrance, no_operating_point, no_place_for_boxes, no_place_with_mains, no_route_to_called,
    no_spare_ports, no_station, no_such_port, not_a_quantity, not_a_workbook, not_isolating, not_wired,
    numbers_alike, off_the_routes, out_of_range, outdoor_run_without_surge_protection, part_cable_twice,
    part_of_another_family,
    percentage_below_one, place_without_building, place_without_floor, port_needed, port_overloaded,
    port_used_twice, price_without_part, prices_left_out, relay_on_unsecure_side, relay_overloaded,
    replaces_nothing, revision_twice, revisions_out_of_order, route_to_itself, route_twice, route_unlike_others,
    route_without_length, run_ends_at_port, run_too_long,
    run_without_stops, section_shorter_than_climb, section_very_short, settings_contradict, sheet_missing, sheet_twice, sheet_unknown,
    sheet_unreadable, short_circuit_darkens, short_circuit_not_cleared, short_circuit_not_detected,
    signal_notch, signal_ripple, signal_too_weak, silenced_group, site_too_large, start_up_dip,
    start_up_dropouts, start_up_fails, start_up_hiccups, supply_count_exceeded, supply_outputs_exceeded,
    supply_overloaded, supply_set_too_low, supply_shorts_signal, supply_too_hot, supply_without_load,
    suppression_missing, suppression_unsuitable, temperatures_out_of_order, terminator_doubled,
    terminator_misplaced, terminator_missing, terminator_not_needed, terminator_without_capacitor, thin_margin,
    toml_syntax, too_many_buildings, too_many_cells, too_many_columns, too_many_door_stations, too_many_findings, too_many_rows,
    too_many_stations_in_dwelling, too_many_stations_on_port, too_many_tables, total_length_exceeded,
    trip_below_legitimate_current, two_main_entrances, unit_missing, unknown_key, unknown_name, unknown_setting,
    unknown_unit, unknown_word, unpacks_too_large, values_out_of_order, voltage_too_high, voltage_too_low,
    wiring_loop, withdrawal_without_part, wrong_kind_of_part, wrong_type, wrong_unit,
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::template::argument_names;
    use latchline_finding::{Code, Origin, Severity, Unit};
    use std::collections::BTreeSet;

    #[test]
    fn codes_are_in_order_and_named_like_their_files() {
        assert!(ALL.is_sorted_by(|a, b| a.code < b.code));
        assert_eq!(of("voltage-too-low").map(|words| words.code), Some("voltage-too-low"));
        assert_eq!(of("no-such-code"), None);
    }

    /// The German of a code asks for no argument that its English does not know, and says element, value and limit where
    /// the English does.
    #[test]
    fn both_languages_say_the_same() {
        for words in ALL {
            let of = |language| words.templates(language);
            for (english, german) in of(Language::English).into_iter().zip(of(Language::German)) {
                let names = |text| -> BTreeSet<String> {
                    argument_names(text).into_iter().map(|(name, _)| name).collect()
                };
                let (known, said) = (names(english), names(german));
                assert_eq!(said, known, "{}: {german} / {english}", words.code);
                assert_eq!(english.is_empty(), german.is_empty(), "{}", words.code);
            }
            for language in [Language::English, Language::German] {
                assert!(
                    words.page(language).len() > 50 && !words.title(language).is_empty(),
                    "{}",
                    words.code
                );
                assert!(!words.templates(language)[0].ends_with('.'), "{}", words.code);
                let is_short = crate::row::of(words.short, language).chars().count() <= MOST_SIGNS_SHORT;
                assert!(is_short, "{}: {}", words.code, words.short(language));
            }
            assert_eq!(words.short[0].is_empty(), words.short[1].is_empty(), "{}", words.code);
            let headings =
                |language| words.page(language).lines().filter(|line| line.starts_with('#')).count();
            assert_eq!(headings(Language::English), headings(Language::German), "{}", words.code);
        }
    }

    #[test]
    fn braces_and_brackets_of_all_words_are_paired() {
        for words in ALL {
            let both = [Language::English, Language::German].map(|language| words.templates(language));
            for template in both.into_iter().flatten() {
                let mut open = Vec::new();
                for sign in template.chars() {
                    match sign {
                        '{' | '<' => {
                            assert!(!open.contains(&sign), "{}: nested in \"{template}\"", words.code);
                            open.push(sign);
                        }
                        '}' => assert_eq!(open.pop(), Some('{'), "{}: \"{template}\"", words.code),
                        '>' => assert_eq!(open.pop(), Some('<'), "{}: \"{template}\"", words.code),
                        _ => {}
                    }
                }
                assert!(open.is_empty(), "{}: \"{template}\"", words.code);
            }
        }
    }

    #[test]
    fn a_name_keeps_its_case_at_the_beginning_of_a_sentence() {
        let found = |code| Finding::new(Code(code), Severity::Error, Origin::None).about("gate");
        let low = found("voltage-too-low").figures(35.0, 36.0, Unit::Volt);
        assert!(
            sentence(&low, Language::English).starts_with("gate"),
            "{}",
            sentence(&low, Language::English)
        );
        let bins = found("lock-voltage-too-low").figures(8.7, 10.8, Unit::Volt).with("lock", "strike-12");
        assert!(
            sentence(&bins, Language::English).starts_with("The lock"),
            "{}",
            sentence(&bins, Language::English)
        );
    }

    #[test]
    fn a_code_without_words_falls_back_to_its_title_and_figures() {
        let finding = Finding::new(Code("brand-new-code"), Severity::Error, Origin::None)
            .about("A-1")
            .figures(35.0, 36.0, Unit::Volt);
        let said = |language| wording(&finding, language).message;
        assert_eq!(said(Language::English), "A-1: brand new code: 35 V, limit 36 V");
        assert_eq!(said(Language::German), "A-1: brand new code: 35 V, Grenzwert 36 V");
    }

    #[test]
    fn a_german_sentence_has_german_figures_and_words() {
        let found = Finding::new(Code("lock-voltage-too-low"), Severity::Error, Origin::None)
            .about("bins")
            .figures(8.731, 10.8, Unit::Volt)
            .with("lock", "strike-12");
        let said = "Das Schloss strike-12 von bins bekommt 8,73 V und braucht 10,8 V";
        assert_eq!(wording(&found, Language::German).message, said);
        let wired = Finding::new(Code("lock-contact-wiring"), Severity::Error, Origin::None)
            .about("front")
            .with("lock", "magnet-12")
            .with("kind", crate::terms::Term::OpensWithoutPower.both())
            .with("required", crate::terms::Term::NormallyClosed.both())
            .with("stated", crate::terms::Term::NormallyOpen.both());
        assert_eq!(
            wording(&wired, Language::German).message,
            "Das Schloss magnet-12 von front öffnet ohne Strom; sein Relaiskontakt muss Öffner sein, nicht Schließer"
        );
    }
}
