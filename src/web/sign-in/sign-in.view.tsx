import { textField } from '../forms/fields.js';
import { page } from '../shell/layout.js';

export interface SignInForm {
  readonly email: string;
  /** Where to go afterwards. */
  readonly to: string;
  /** What was wrong with the last try. */
  readonly fault?: string;
  /** Said above the form, e.g. after signing out. */
  readonly note?: string;
}

export function signInPage({ email, to, fault, note }: SignInForm): string {
  return page({
    title: 'Sign in',
    children: (
      <div class="door">
        <h1>Sign in</h1>
        {note ? (
          <p class="note" role="status" safe>
            {note}
          </p>
        ) : (
          ''
        )}
        {fault ? (
          <p class="note act" role="alert" safe>
            {fault}
          </p>
        ) : (
          ''
        )}
        <form method="post" action="/sign-in" class="stack">
          <input type="hidden" name="to" value={to} />
          {textField({
            name: 'email',
            label: 'Email',
            value: email,
            type: 'email',
            autocomplete: 'username',
            required: true,
          })}
          {textField({
            name: 'password',
            label: 'Password',
            value: '',
            type: 'password',
            autocomplete: 'current-password',
            required: true,
          })}
          <p>
            <button type="submit" class="btn first">
              Sign in
            </button>
          </p>
        </form>
        <p class="fine">No account yet, or the password forgotten? The account owner of your company sets it.</p>
      </div>
    ),
  });
}
