# SPDX-FileCopyrightText: The firmlever authors
# SPDX-License-Identifier: Apache-2.0
"""The app's server: the interface for the pages, and the pages themselves."""
