//! Things that a file writes without braces, since they are one value.

use super::{Form, Member, Row, Shape, Thing};

/// Whether these members are one value, which stands in a file without a key of its own.
pub(crate) fn are_one_value(members: &[Member<'_>]) -> bool {
    let has_keys = |row: &Row| !row.key.is_empty() || matches!(row.form, Form::OneOf(Shape::ByKeys));
    matches!(members, [member] if !has_keys(member.row))
}

/// The text or the choice of which alone a thing consists: it stands for the thing, without braces.
pub(crate) fn bare<'a>(thing: &'a mut dyn Thing) -> Option<Member<'a>> {
    let is_alone = |form| matches!(form, Form::Text { .. } | Form::OneOf(Shape::Tagged(_)));
    let mut members = thing.members();
    let is_bare = matches!(&members[..], [Member { row, .. }] if row.key.is_empty() && is_alone(row.form));
    members.truncate(usize::from(is_bare));
    members.pop()
}
