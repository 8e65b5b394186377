//! Answers on the telephone are found again.

use crate::common::{kept, signed};
use latchline_store::{Answer, Number, StoreError};

fn answer(id: &str, asked_by: &str, question: &str) -> Answer {
    Answer {
        id: id.to_string(),
        asked_by: asked_by.to_string(),
        question: question.to_string(),
        answer: "at most 12 stations, 10% to spare".to_string(),
        assumptions: "pair-0.8, 5 m apart".to_string(),
        catalogue: "built-in 0.1".to_string(),
        signed: latchline_store::Signed { client: String::new(), ..signed("kim") },
        site: None,
    }
}

#[test]
fn an_answer_is_kept_once_and_found_by_its_words() {
    let kept = kept();
    let first = answer("a", "Frau Öztürk", "How many on one riser?");
    assert_eq!(kept.store.keep_answer(&first), Ok(Number(1)));
    assert_eq!(kept.store.keep_answer(&first), Ok(Number(1)), "sent again");
    let other = Answer { answer: "more".to_string(), ..first.clone() };
    assert!(matches!(kept.store.keep_answer(&other), Err(StoreError::IdReused(_))));
    let about = Answer { site: Some(kept.site), ..answer("b", "Mr Lee", "How far_is 100% of it?") };
    assert_eq!(kept.store.keep_answer(&about), Ok(Number(2)));
    let found = |words: &str| {
        let found = kept.store.find_answers(words, None, 10).unwrap();
        found.into_iter().map(|(number, _)| number.0).collect::<Vec<_>>()
    };
    assert_eq!(found(""), [2, 1]);
    assert_eq!(found("öztürk RISER"), [1]);
    assert_eq!(found("öztürk lee"), [0_i64; 0]);
    assert_eq!(found("100%"), [2], "a sign of the pattern stands for itself");
    assert_eq!(found("far_is"), [2]);
    assert_eq!(found("r_s"), [0_i64; 0]);
    assert_eq!(kept.store.find_answers("", Some(Number(2)), 10).unwrap(), [(Number(1), first)]);
    assert_eq!(kept.store.answer(Number(2)).unwrap(), about);
    assert!(matches!(kept.store.answer(Number(9)), Err(StoreError::NotThere(_))));
    let long = Answer { id: "c".to_string(), question: "x".repeat(20_001), ..about };
    assert!(matches!(kept.store.keep_answer(&long), Err(StoreError::Unfit(_))));
}

/// What is deleted is found no more, and its number names nothing else later.
#[test]
fn an_answer_is_deleted_with_all_its_words() {
    let kept = kept();
    let number = kept.store.keep_answer(&answer("a", "Frau Öztürk", "How many?")).unwrap();
    kept.store.delete_answer(number).unwrap();
    assert!(matches!(kept.store.answer(number), Err(StoreError::NotThere(_))));
    assert!(matches!(kept.store.delete_answer(number), Err(StoreError::NotThere(_))));
    assert_eq!(kept.store.find_answers("", None, 10), Ok(Vec::new()));
    let next = kept.store.keep_answer(&answer("b", "Mr Lee", "How far?")).unwrap();
    assert_eq!(next, Number(number.0 + 1));
}
