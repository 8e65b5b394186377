//! Heights of entry controls above the ground, by country, and what else is asked of a door panel there. Advice: the
//! local code and the project's access consultant prevail.

use latchline_words::publications::{PanelAdvice, Publication};

/// A published range of heights.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HeightRange {
    /// Lowest, in metres.
    pub least_m: f64,
    /// Highest, in metres.
    pub most_m: f64,
    /// The publication.
    pub source: Publication,
    /// What else it, or another publication of the country, asks of a door panel, where anything is known here.
    pub also: Option<PanelAdvice>,
}

/// Ranges by country (ISO 3166-1 alpha-2). The source says how its figures are known: as quoted by somebody
/// else, or from memory and not yet confirmed.
const RANGES: &[(&str, HeightRange)] = &[
    (
        "US",
        HeightRange {
            least_m: 0.38,
            most_m: 1.22,
            source: Publication::Ada,
            also: Some(PanelAdvice::Obstruction),
        },
    ),
    (
        "GB",
        HeightRange {
            least_m: 0.90,
            most_m: 1.00,
            source: Publication::ApprovedDocumentM,
            also: Some(PanelAdvice::ReturnCorner),
        },
    ),
    (
        "IT",
        HeightRange {
            least_m: 1.10,
            most_m: 1.30,
            source: Publication::Dm236,
            also: Some(PanelAdvice::BellPushes),
        },
    ),
    ("DE", HeightRange { least_m: 0.85, most_m: 1.05, source: Publication::Din18040, also: None }),
    (
        "FR",
        HeightRange {
            least_m: 0.90,
            most_m: 1.30,
            source: Publication::FrenchOrder,
            also: Some(PanelAdvice::InnerCorner),
        },
    ),
    (
        "CH",
        HeightRange {
            least_m: 0.80,
            most_m: 1.10,
            source: Publication::Sia500,
            also: Some(PanelAdvice::NotInCorner),
        },
    ),
    (
        "NO",
        HeightRange {
            least_m: 0.80,
            most_m: 1.10,
            source: Publication::Tek17,
            also: Some(PanelAdvice::Wheelchair),
        },
    ),
    (
        "DK",
        HeightRange {
            least_m: 0.80,
            most_m: 1.10,
            source: Publication::Iso21542,
            also: Some(PanelAdvice::ActiveShown),
        },
    ),
    ("ES", HeightRange { least_m: 0.80, most_m: 1.20, source: Publication::CteDbSua, also: None }),
    ("AU", HeightRange { least_m: 0.90, most_m: 1.25, source: Publication::As14281, also: None }),
];

/// The international standard, where the country has no entry above.
const ELSEWHERE: HeightRange =
    HeightRange { least_m: 0.80, most_m: 1.10, source: Publication::Iso21542, also: None };

/// The range for a country; the international standard's without one.
pub fn height_range(country: Option<&str>) -> HeightRange {
    country
        .and_then(|country| RANGES.iter().find(|(code, _)| *code == country))
        .map_or(ELSEWHERE, |(_, range)| *range)
}

#[cfg(test)]
mod tests {
    use super::{RANGES, height_range};
    use latchline_finding::Language;
    use latchline_words::publications::Publication;

    fn english(source: Publication) -> &'static str {
        source.say(Language::English)
    }

    /// US Department of Justice, 2010 ADA Standards 308.2.1: 15 in to 48 in; 308.2.2: 44 in beyond 20 in of
    /// obstruction.
    #[test]
    fn reach_of_the_ada_standards_in_inches() {
        let range = height_range(Some("US"));
        let also = range.also.expect("advice on panels").say(Language::English);
        assert!((range.least_m - 15.0 * 0.0254).abs() < 0.002);
        assert!((range.most_m - 48.0 * 0.0254).abs() < 0.002);
        assert!(also.contains("1.12 m") && (44.0 * 0.0254 - 1.12_f64).abs() < 0.003);
        assert!(also.contains("0.51 m") && (20.0 * 0.0254 - 0.51_f64).abs() < 0.003);
    }

    /// Ranges as others quote them. Italy: ministerial decree 236/1989 in handbooks, entry phone 110 to 130 cm. France: order
    /// of 24 December 2015 on an energy advice page, controls between visitors and residents 0.90 to 1.30 m.
    /// Switzerland: SIA 500 section 9.6.1 on the page of the country's centre for accessible building, 0.80 to 1.10 m. Norway: an advice
    /// page on universal design, bell panels 800 to 1100 mm. Australia: an access consultant on AS 1428.1, touch pads 900
    /// to 1250 mm.
    #[test]
    fn heights_as_quoted() {
        let range = |country| {
            let range = height_range(Some(country));
            assert!(english(range.source).ends_with("as quoted"), "{}", english(range.source));
            (range.least_m, range.most_m)
        };
        assert_eq!(range("IT"), (1.10, 1.30));
        assert_eq!(range("FR"), (0.90, 1.30));
        assert_eq!(range("CH"), (0.80, 1.10));
        assert_eq!(range("NO"), (0.800, 1.100));
        assert_eq!(range("AU"), (0.900, 1.250));
    }

    /// Every figure says how it is known: by the publication itself (ADA), as quoted, or from memory.
    #[test]
    fn every_source_says_how_it_is_known() {
        for (country, range) in RANGES {
            let is_told = english(range.source).contains("as quoted")
                || english(range.source).contains("check the edition in force");
            assert!(is_told || *country == "US", "{country}: {}", english(range.source));
            assert!(range.least_m < range.most_m);
        }
    }

    #[test]
    fn other_countries_get_the_international_standard() {
        assert_eq!(height_range(None), height_range(Some("ZZ")));
        assert!(english(height_range(None).source).starts_with("ISO 21542"));
    }
}
