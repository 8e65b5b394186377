//! Where a fault is, on its page: what the command line says of the same items, and nothing of what strangers send.
#![allow(clippy::unwrap_used, reason = "tests may fail")]

use crate::common::{SITE, Served, status};
use latchline_answer::{Again, Piece, Reader, whole};
use latchline_finding::{Language, Sources};
use latchline_locate::input::{check, read_item};
use latchline_locate::{Options, Plant, Rates, locate};
use latchline_site::{builtin_catalogue, resolve};

/// A text as it stands in markup.
fn marked_up(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}

/// The stations of the starter, to name two that it has.
fn stations() -> Vec<String> {
    let mut sources = Sources::new();
    let (name, text) = builtin_catalogue();
    let catalogue = sources.add(name, text);
    let file = sources.add("site.toml", SITE);
    let site = resolve(&sources, file, &[catalogue]).site.unwrap();
    site.stations.iter().map(|station| station.id.to_string()).collect()
}

/// Every sentence and every line of the answer, in both languages.
#[test]
fn the_page_says_what_the_command_line_says() {
    let served = Served::new();
    let last = stations().pop().unwrap();
    let items = [format!("{last}=restarts"), format!("{last}@ringing=38V")];
    let mut sources = Sources::new();
    let (name, text) = builtin_catalogue();
    let catalogue = sources.add(name, text);
    let file = sources.add("site.toml", SITE);
    let site = resolve(&sources, file, &[catalogue]).site.unwrap();
    for (language, cookie) in [(Language::English, "en-metric"), (Language::German, "de-metric")] {
        let path = format!(
            "/sites/house/fault?given={}%3Drestarts&at={}&state=ringing&value=38,0+V",
            items[0].split_once('=').unwrap().0,
            last
        );
        let request = format!(
            "GET {path} HTTP/1.1\r\nHost: {}\r\nCookie: latchline-locale={cookie}\r\nConnection: close\r\n\r\n",
            served.at
        );
        let page = served.raw(request.as_bytes());
        assert_eq!(status(&page), 200);
        let said = Plant::of_site(&site, |plant| {
            let rows: Vec<_> =
                items.iter().enumerate().map(|(at, item)| read_item(item, at + 1).unwrap()).collect();
            let evidence = check(plant, &rows).evidence;
            let options = Options::default();
            let located = locate(plant, &evidence, &Rates::built_in(), &options);
            let reader = Reader { site: &site, language };
            let again = Again { plant, asked: None, first_read: None };
            whole(&reader, &evidence, &located, &options, &[], Some(&again))
        });
        let words = said.0.iter().filter_map(|piece| match piece {
            Piece::Paragraph(words) | Piece::Item(words) => Some(words),
            Piece::Gap => None,
        });
        for words in words {
            assert!(page.contains(&marked_up(words)), "{language:?}: {words}");
        }
        assert_eq!(page.matches("<figure").count(), page.matches("</svg>").count());
        assert!(page.matches("<figure").count() >= 3, "three kinds of pictures");
    }
}

/// Before anything is known it says what to ask, and draws nothing.
#[test]
fn without_anything_known_it_says_what_to_ask() {
    let served = Served::new();
    let page = served.get("/sites/house/fault");
    assert_eq!(status(&page), 200);
    assert!(page.contains("Ask the caller before anything is measured."));
    assert!(!page.contains("<figure") && !page.contains("latchline locate SITE"), "no command on a page");
    assert_eq!(status(&served.get("/sites/nowhere/fault")), 404);
}

/// What cannot be used is told, left out of what is carried on, and never taken for markup; far too much is cut off.
#[test]
fn what_cannot_be_used_is_told_as_text() {
    let served = Served::new();
    let page = served.get("/sites/house/fault?told_at=%3Cscript%3E&told=dead&at=PS&value=47mV");
    assert_eq!(status(&page), 200);
    assert!(page.contains("role=\"alert\"") && page.contains("&lt;script&gt;"), "{page}");
    assert!(!page.contains("<script>"));
    let many: String = (100..400).map(|number| format!("A{number}%3Ddead%0A")).collect();
    let page = served.get(&format!("/sites/house/fault?given={}", many));
    assert!(status(&page) == 422 && page.ends_with("The address is too long."), "{page}");
    let page = served.get(&format!("/sites/house/fault?given={}", &many[..14 * 100]));
    assert_eq!((status(&page), page.matches("no place").count()), (200, 60), "no more than sixty");
    let long = "x".repeat(5000);
    let page = served.get(&format!("/sites/house/fault?told_at={long}&told=dead"));
    assert!(matches!(status(&page), 200 | 422));
    assert!(!page.contains(&long));
}
