use crate::quantity::{Exact, Unit, print_decimal, shortened};
use crate::rubric::{Expression, Limit};

/// An expression in words; `name` says what a reading is called.
pub(super) fn expression_words(
    expression: &Expression,
    sheet: Unit,
    name: &dyn Fn(&str) -> String,
) -> String {
    let say = |expression: &Expression| expression_words(expression, sheet, name);
    match expression {
        Expression::Amount(quantity) => quantity.print_limit(sheet),
        Expression::Reading(id) => name(id),
        Expression::Share(share, of) => format!("{} of {}", share_words(*share), say(of)),
        Expression::Sum(a, b) => format!("{} plus {}", say(a), say(b)),
        Expression::Difference(a, b) => format!("{} minus {}", say(a), say(b)),
        Expression::Greater(a, b) => format!("the greater of {} and {}", say(a), say(b)),
        Expression::Lesser(a, b) => format!("the lesser of {} and {}", say(a), say(b)),
    }
}

/// A limit in words.
pub(super) fn limit_words(limit: &Limit, sheet: Unit, name: &dyn Fn(&str) -> String) -> String {
    match limit {
        Limit::Amount(expression) => expression_words(expression, sheet, name),
        Limit::Percent(percent) => percent_words(*percent),
    }
}

/// `10 %`.
pub(super) fn percent_words(percent: Exact) -> String {
    let number = print_decimal(percent, 2);
    format!("{} %", shortened(&number))
}

fn share_words(share: Exact) -> String {
    match share.times(Exact::HUNDRED) {
        Some(percent) if percent.denominator() == 1 && share.denominator() > 4 => {
            format!("{percent} %")
        }
        _ => share.to_string(),
    }
}
