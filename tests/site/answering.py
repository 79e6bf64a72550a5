"""Answering the questions of a page in the browser."""

from __future__ import annotations

from playwright.sync_api import Page

# Presses what a hand would press, and only where a hand would reach it; all at one go, as a
# message to the browser for each press takes far longer than the press.
ANSWER_ALL = """() => {
  const press = node => {
    node.scrollIntoView({block: 'center', behavior: 'instant'});
    const box = node.getBoundingClientRect();
    const top = document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2);
    if (!top || !node.contains(top)) throw new Error('out of reach: ' + node.outerHTML);
    node.click();
  };
  const forms = kind => [...document.querySelectorAll(`form[data-question=${kind}]`)]
    .filter(form => !form.closest('.sw-gaps[hidden]'));
  const check = form => {
    press(form.querySelector('button[type=submit]'));
    return form.querySelector('[role=status]').innerText;
  };
  return {
    typed: forms('typed').map(form => {
      press(form.querySelector('.sw-answer summary'));
      const box = form.querySelector('input[type=text]');
      press(box);
      box.value = form.querySelector('.sw-answer .sw-n').innerText;
      return [box.value, check(form)];
    }),
    choice: forms('choice').map(form => [...form.querySelectorAll('input[type=radio]')].map(
      option => { press(option); return check(form); })),
  };
}"""


def answer_every_question(page: Page) -> int:
    """Type each shown answer and choose each option; assert that the replies fit.

    Returns:
        How many questions the page has.
    """
    told = page.evaluate(ANSWER_ALL)
    for shown, reply in told["typed"]:
        assert shown.strip()
        assert "Right." in reply, (page.url, shown)
    for replies in told["choice"]:
        assert len(replies) >= 2
        assert sum(reply.startswith("Right.") for reply in replies) == 1, (page.url, replies)
    return len(told["typed"]) + len(told["choice"])
