"""Answering the questions of a page in the browser."""

from __future__ import annotations

from playwright.sync_api import Page, expect


def answer_every_question(page: Page) -> int:
    """Type each shown answer and choose each option; assert that the replies fit.

    Returns:
        How many questions the page has.
    """
    typed = page.locator("form[data-question=typed]").all()
    for form in typed:
        form.get_by_text("Show the answer").click()
        shown = form.locator(".sw-answer .sw-n").inner_text()
        form.get_by_role("textbox").fill(shown)
        form.get_by_role("button", name="Check").click()
        expect(form.get_by_role("status")).to_contain_text("Right.")
    choices = page.locator("form[data-question=choice]").all()
    for form in choices:
        right = 0
        for option in form.get_by_role("radio").all():
            option.check()
            form.get_by_role("button", name="Check").click()
            right += form.get_by_role("status").inner_text().startswith("Right.")
        assert right == 1
    return len(typed) + len(choices)
