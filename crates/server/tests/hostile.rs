//! Requests that no page of ours sends: each is refused.
//!
//! The attacks are those of the OWASP Cheat Sheet Series (cross-site request forgery prevention, DNS rebinding under "Server-side request
//! forgery", content security policy); from memory.
#![allow(clippy::unwrap_used, clippy::disallowed_methods, reason = "tests may fail")]

use crate::common::{SITE, Served, TOKEN, status};
use std::io::{Read, Write};
use std::net::TcpStream;
use std::time::{Duration, Instant};

const CABLE: &str = r#"{"kind":"cable","run":"flats-1","cable":"pair-0.5"}"#;

#[test]
fn a_name_of_elsewhere_is_not_answered() {
    let served = Served::new();
    for host in ["evil.example", "127.0.0.1.evil.example", "localhost.evil.example:4840", ""] {
        let request = format!("GET /sites HTTP/1.1\r\nHost: {host}\r\nConnection: close\r\n\r\n");
        assert!(matches!(status(&served.raw(request.as_bytes())), 400 | 403), "{host}");
    }
    assert!(
        matches!(status(&served.raw(b"GET /sites HTTP/1.1\r\nConnection: close\r\n\r\n")), 400 | 403),
        "no host"
    );
    let two = format!(
        "GET /sites HTTP/1.1\r\nHost: {}\r\nHost: evil.example\r\nConnection: close\r\n\r\n",
        served.at
    );
    assert!(matches!(status(&served.raw(two.as_bytes())), 400 | 403), "two hosts");
    assert_eq!(status(&served.get("/sites")), 200);
}

#[test]
fn a_write_from_elsewhere_is_refused() {
    let served = Served::new();
    let body = format!("{{\"id\":\"a\",\"client\":\"t\",\"base\":1,\"change\":{CABLE}}}");
    let send = |headers: &str| status(&served.post("/sites/house/edit", headers, &body));
    let token = format!("x-latchline-token: {TOKEN}\r\n");
    assert_eq!(send(""), 403, "no token");
    assert_eq!(send("x-latchline-token: 0123456789abcdee\r\n"), 403, "another token: an old page, a guess");
    assert_eq!(send(&format!("{token}Origin: http://evil.example\r\n")), 403);
    assert_eq!(send(&format!("{token}Origin: null\r\n")), 403);
    assert_eq!(send(&format!("{token}Sec-Fetch-Site: cross-site\r\n")), 403);
    assert_eq!(send(&format!("{token}Sec-Fetch-Site: same-site\r\n")), 403);
    assert_eq!(send(&format!("{token}Origin: http://{}\r\nSec-Fetch-Site: same-origin\r\n", served.at)), 200);
}

/// Why not is said in the language that the reader chose, by whoever refuses.
#[test]
fn what_is_refused_is_said_in_the_readers_language() {
    let served = Served::new();
    let german = "Cookie: latchline-locale=de-metric\r\n";
    let get = |path: &str, headers: &str| {
        let request =
            format!("GET {path} HTTP/1.1\r\nHost: {}\r\n{headers}Connection: close\r\n\r\n", served.at);
        served.raw(request.as_bytes())
    };
    assert!(get("/sites/nowhere", "").ends_with("There is no such thing."));
    assert!(get("/sites/nowhere", german).ends_with("Das gibt es hier nicht."));
    assert!(
        get("/sites/nowhere", "Accept-Language: de-AT,de;q=0.9\r\n").ends_with("Das gibt es hier nicht.")
    );
    assert!(get(&format!("/sites/{}", "x".repeat(5_000)), german).ends_with("Die Adresse ist zu lang."));
    let body = format!("{{\"id\":\"a\",\"client\":\"t\",\"base\":1,\"change\":{CABLE}}}");
    let without_token = served.post("/sites/house/edit", german, &body);
    assert_eq!(status(&without_token), 403);
    assert!(without_token.contains("neu laden"), "{without_token}");
    let unknown = body.replace("pair-0.5", "kuchen");
    let refused =
        served.post("/sites/house/edit", &format!("{german}x-latchline-token: {TOKEN}\r\n"), &unknown);
    assert_eq!(status(&refused), 422);
    assert!(refused.contains("„kuchen“"), "{refused}");
}

/// The record of questions holds names that somebody typed: nobody from elsewhere writes to it or deletes from it, and what is typed is text.
#[test]
fn the_record_of_questions_is_written_by_our_pages_alone() {
    let served = Served::new();
    let token = format!("x-latchline-token: {TOKEN}\r\n");
    let keep = "{\"id\":\"a\",\"address\":\"/questions/switches\",\"who\":\"<script>x</script>\"}";
    assert_eq!(status(&served.post("/questions/keep", "", keep)), 403);
    assert_eq!(
        status(&served.post("/questions/keep", &format!("{token}Origin: http://evil.example\r\n"), keep)),
        403
    );
    assert_eq!(status(&served.post("/questions/keep", &token, keep)), 200);
    let delete = "{\"number\":1}";
    assert_eq!(status(&served.post("/questions/record/delete", "", delete)), 403);
    for page in ["/questions/record", "/questions/record/1"] {
        let answer = served.get(page);
        assert!(answer.contains("&lt;script&gt;x") && !answer.contains("<script>x"), "{page}");
    }
    let long =
        format!("{{\"id\":\"b\",\"address\":\"/questions/switches\",\"who\":\"{}\"}}", "x".repeat(2_000));
    assert_eq!(status(&served.post("/questions/keep", &token, &long)), 422);
    for address in ["//evil.example/questions", "http://evil.example/questions", "/sites", "", "%00"] {
        let keep = format!("{{\"id\":\"c\",\"address\":\"{address}\",\"who\":\"\"}}");
        assert_eq!(status(&served.post("/questions/keep", &token, &keep)), 404, "{address}");
    }
    assert_eq!(status(&served.post("/questions/record/delete", &token, delete)), 200);
    assert_eq!(status(&served.get("/questions/record/1")), 404);
}

#[test]
fn nothing_but_reading_and_posting_is_known() {
    let served = Served::new();
    for method in ["PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "CONNECT"] {
        let request = format!(
            "{method} /sites HTTP/1.1\r\nHost: {}\r\nConnection: close\r\nContent-Length: 0\r\n\r\n",
            served.at
        );
        assert!(matches!(status(&served.raw(request.as_bytes())), 400 | 403 | 405), "{method}");
    }
    let answer = served.get("/sites");
    assert!(!answer.to_lowercase().contains("access-control-allow"), "nobody else may read what is answered");
}

#[test]
fn every_answer_forbids_scripts_of_others_and_frames() {
    let served = Served::new();
    for path in [
        "/sites",
        "/sites/house",
        "/questions/switches",
        "/questions/record",
        "/nothing-here",
        "/assets/x/office.js",
        "/sites/house/documents/site.toml",
    ] {
        let answer = served.get(path).to_lowercase();
        for must in [
            "content-security-policy: default-src 'none'; script-src 'self'",
            "frame-ancestors 'none'",
            "x-content-type-options: nosniff",
            "referrer-policy: no-referrer",
            "cross-origin-resource-policy: same-origin",
        ] {
            assert!(answer.contains(must), "{path} lacks {must}");
        }
        let body = answer.split_once("\r\n\r\n").map_or("", |(_, body)| body);
        if !path.ends_with(".js") && !path.ends_with(".toml") {
            assert!(
                !body.contains("unsafe-inline") && !body.contains(" onclick=") && !body.contains("<style")
            );
            for script in body.split("<script").skip(1) {
                assert!(script.starts_with(" type=\"module\" src=\"/assets/"), "{path}: {script:.60}");
            }
        }
    }
}

/// The page for the phone carries its own script: the policy names it by its hash, and allows nothing else.
#[test]
fn the_phone_page_runs_its_own_script_alone() {
    let served = Served::new();
    let answer = served.get("/sites/house/phone");
    assert_eq!(status(&answer), 200);
    let (head, body) = answer.split_once("\r\n\r\n").unwrap();
    let policies: Vec<&str> =
        head.lines().filter(|line| line.to_lowercase().starts_with("content-security-policy:")).collect();
    assert_eq!(policies.len(), 1);
    assert!(
        policies[0].contains("default-src 'none'; script-src 'sha256-")
            && policies[0].contains("frame-ancestors 'none'")
    );
    assert!(!policies[0].contains("'self'") && !policies[0].contains("unsafe"));
    assert!(body.contains("id=\"plan\""));
    assert_eq!(status(&served.get("/sites/nowhere/phone")), 404);
}

#[test]
fn ways_out_of_the_store_lead_nowhere() {
    let served = Served::new();
    for path in [
        "/assets/x/../../Cargo.toml",
        "/assets/x/%2e%2e%2fCargo.toml",
        "/sites/house/documents/..%2f..%2fetc%2fpasswd",
        "/sites/..%2f..%2fetc%2fpasswd",
        "/sites/house/documents/%00",
        "//evil.example/",
    ] {
        assert_eq!(status(&served.get(path)), 404, "{path}");
    }
    for back in ["//evil.example", "https://evil.example", "/%5Cevil.example", "/a%0d%0aSet-Cookie:%20x=1"] {
        let answer = served.get(&format!("/locale?to=en-metric&back={back}"));
        assert!(answer.contains("location: /sites\r\n"), "{back}: {answer:.200}");
    }
}

#[test]
fn what_is_too_large_is_refused() {
    let served = Served::new();
    let head = |length: u64| {
        format!(
            "POST /sites/new?kind=file&name=a HTTP/1.1\r\nHost: {}\r\nConnection: close\r\nx-latchline-token: {TOKEN}\r\nContent-Length: {length}\r\n\r\n",
            served.at
        )
    };
    let mut request = head(9_000_000).into_bytes();
    request.resize(request.len() + 9_000_000, b' ');
    assert!(matches!(status(&served.raw(&request)), 0 | 413), "a body of nine million bytes");
    let long = "a".repeat(6_000);
    assert!(matches!(status(&served.get(&format!("/sites?{long}"))), 414 | 422));
    let answer = served.edit(&"x".repeat(200), 1, CABLE);
    assert_eq!(status(&answer), 422, "an id of 200 signs");
}

#[test]
fn who_sends_slowly_is_cut_off() {
    let served = Served::new();
    let mut stream = TcpStream::connect(served.at).unwrap();
    stream.set_read_timeout(Some(Duration::from_secs(20))).unwrap();
    stream.write_all(b"GET /sites HTTP/1.1\r\nHost: ").unwrap();
    let begun = Instant::now();
    let mut answer = Vec::new();
    let _ = stream.read_to_end(&mut answer);
    assert!(begun.elapsed() < Duration::from_secs(15), "an unfinished head is not waited for");
    assert_eq!(status(&served.get("/sites")), 200, "others are answered");
}

#[test]
fn names_are_text_wherever_they_stand() {
    let hostile = "<script>alert(1)</script>";
    let text =
        SITE.replace("\"Starter house\"", &format!("\"{hostile}\"")).replace("A-1", "\"A<img src=x>1\"");
    let text = text.replace("[\"\"A<img src=x>1\"\"", "[\"A<img src=x>1\"");
    let served = Served::with(&text);
    for path in [
        "/sites/house",
        "/sites",
        "/sites/house/history",
        "/sites/house/text",
        "/sites/house/table",
        "/sites/house/drawing",
    ] {
        let answer = served.get(path);
        assert_eq!(status(&answer), 200, "{path}");
        assert!(!answer.contains(hostile) && !answer.contains("<img src=x"), "{path}");
    }
    let answer = served.get("/sites/%3Cscript%3Ealert(1)%3C%2Fscript%3E");
    assert!(!answer.contains(hostile));
}

#[test]
fn an_edit_that_is_sent_twice_is_made_once() {
    let served = Served::new();
    let first = served.edit("one", 1, CABLE);
    assert_eq!(status(&first), 200, "{first}");
    assert!(first.ends_with("{\"revision\":2}"), "{first}");
    assert!(served.edit("one", 1, CABLE).ends_with("{\"revision\":2}"), "sent again");
    assert!(
        served
            .edit("two", 2, r#"{"kind":"cable","run":"flats-2","cable":"pair-0.5"}"#)
            .ends_with("{\"revision\":3}")
    );
}

#[test]
fn an_edit_on_what_others_have_changed_is_a_conflict() {
    let served = Served::new();
    assert_eq!(status(&served.edit("one", 1, CABLE)), 200);
    let same = served.edit("two", 1, r#"{"kind":"cable","run":"flats-1","cable":"flex-1.0"}"#);
    assert_eq!(status(&same), 409, "the cable that the page showed is not there any more: {same}");
    let other = served.edit("three", 1, r#"{"kind":"cable","run":"flats-2","cable":"flex-1.0"}"#);
    assert_eq!(status(&other), 200, "what nobody else touched goes through: {other}");
    assert!(served.get("/sites/house/text").contains("pair-0.5"));
}

#[test]
fn what_makes_no_sense_changes_nothing() {
    let served = Served::new();
    for change in [
        r#"{"kind":"cable","run":"nowhere","cable":"pair-0.5"}"#,
        r#"{"kind":"cable","run":"flats-1","cable":"no such"}"#,
        r#"{"kind":"lengths","run":"flats-1","lengths":"8 6"}"#,
        r#"{"kind":"lengths","run":"flats-1","lengths":"8 six 7"}"#,
        r#"{"kind":"lengths","run":"flats-1","lengths":"-8 6 7"}"#,
        r#"{"kind":"order","run":"flats-1","stops":"A-1 A-2"}"#,
        r#"{"kind":"add-dwelling","name":"A-1","place":"A/G","run":"flats-1","length":"8"}"#,
        r#"{"kind":"accept","code":"thin-margin","element":"A-1","reason":"  ","date":"2026-11-02"}"#,
        r#"{"kind":"bring-back","number":99}"#,
        r#"{"kind":"nonsense"}"#,
        r#"{"kind":"cable","run":"flats-1","cable":"pair-0.5","more":1}"#,
        "not json",
    ] {
        let answer = served.edit("x", 1, change);
        assert!((400..500).contains(&status(&answer)), "{change}: {answer}");
    }
    assert!(
        served.get("/sites/house/history").matches("<tr>").count() <= 2,
        "one revision, as in the beginning"
    );
}

#[test]
fn every_kind_of_edit_leaves_a_site_that_can_be_used() {
    let served = Served::new();
    for (number, change) in [
        r#"{"kind":"lengths","run":"flats-1","lengths":"9 m · 6,5 m · 20 ft"}"#,
        r#"{"kind":"order","run":"flats-1","stops":"A-3 A-1 A-2"}"#,
        r#"{"kind":"port","run":"flats-2","from":"D1.4"}"#,
        r#"{"kind":"model","element":"A-6:2","model":"ostrel-a1"}"#,
        r#"{"kind":"move","station":"A-2","run":"flats-2","length":"7"}"#,
        r#"{"kind":"add-dwelling","name":"Flat <7>","place":"A/2","run":"flats-2","length":"7"}"#,
        r#"{"kind":"add-extension","dwelling":"A-1","model":"ostrel-v4","length":"3"}"#,
        r#"{"kind":"remove","dwelling":"A-5"}"#,
        r#"{"kind":"pairs","run":"flats-2","pairs":2}"#,
    ]
    .into_iter()
    .enumerate()
    {
        let answer = served.edit(&format!("e{number}"), number as i64 + 1, change);
        assert_eq!(status(&answer), 200, "{change}: {answer}");
        let drawn = served.get("/sites/house/drawing");
        assert!(drawn.contains("<svg"), "{change}: the site can still be drawn");
    }
    let drawn = served.get("/sites/house/drawing");
    assert!(!drawn.contains("data-element=\"A-5\"") && drawn.contains("data-element=\"A-1:2\""));
    let undone = served.post(
        "/sites/house/undo",
        &format!("x-latchline-token: {TOKEN}\r\n"),
        r#"{"id":"u","client":"t"}"#,
    );
    assert!(undone.ends_with("{\"revision\":11}"), "undo appends: {undone}");
}

#[test]
fn it_stops_with_pages_open() {
    let served = Served::new();
    let mut stream = TcpStream::connect(served.at).unwrap();
    let request = format!("GET /sites/house/live HTTP/1.1\r\nHost: {}\r\n\r\n", served.at);
    stream.write_all(request.as_bytes()).unwrap();
    let mut first = [0_u8; 64];
    stream.read_exact(&mut first).unwrap();
    let begun = Instant::now();
    drop(served);
    assert!(begun.elapsed() < Duration::from_secs(5), "a stream that is open does not hold it up");
}
